using System.Security.Claims;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Staff;

namespace MitigationOffice.Web.Setup;

/// <summary>Who may come in, and how.</summary>
public static class SignInSetup
{
    public const string OwnerOnly = "owner";
    public const string OfficeWork = "office";
    public const string Throttled = "sign-in";

    public static void AddSignIn(this IServiceCollection services, IConfiguration configuration)
    {
        services.AddIdentityCore<StaffMember>(ConfigureIdentity)
            .AddEntityFrameworkStores<OfficeDb>()
            .AddSignInManager<StaffSignIn>()
            .AddClaimsPrincipalFactory<StaffClaims>()
            .AddPasswordValidator<CommonPasswords>()
            .AddDefaultTokenProviders();
        services.Configure<PasswordHasherOptions>(o => o.IterationCount = configuration.GetValue("Passwords:Iterations", 210_000));
        services.Configure<SecurityStampValidatorOptions>(o => o.ValidationInterval = TimeSpan.FromMinutes(1));
        services.AddAuthentication(IdentityConstants.ApplicationScheme).AddIdentityCookies();
        var https = configuration["PublicAddress"]?.StartsWith("https:", StringComparison.OrdinalIgnoreCase) == true;
        services.ConfigureApplicationCookie(cookie =>
        {
            cookie.Cookie.Name = https ? "__Host-office" : "office";
            cookie.Cookie.HttpOnly = true;
            cookie.Cookie.SameSite = SameSiteMode.Lax;
            cookie.Cookie.SecurePolicy = https ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
            cookie.ExpireTimeSpan = TimeSpan.FromHours(14);
            cookie.SlidingExpiration = true;
            cookie.LoginPath = "/sign-in";
            cookie.AccessDeniedPath = "/not-allowed";
        });
        services.AddAuthorizationBuilder()
            .SetFallbackPolicy(new AuthorizationPolicyBuilder().RequireAuthenticatedUser().Build())
            .AddPolicy(OwnerOnly, p => p.RequireRole(nameof(StaffRole.Owner)))
            .AddPolicy(OfficeWork, p => p.RequireRole(nameof(StaffRole.Owner), nameof(StaffRole.Office)));
        services.AddRateLimiter(limiter =>
        {
            limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limiter.OnRejected = (context, _) =>
            {
                context.HttpContext.Response.Headers.RetryAfter = "60";
                return ValueTask.CompletedTask;
            };
            var perMinute = configuration.GetValue("SignIn:TriesPerMinute", 20);
            limiter.AddPolicy(Throttled, http => RateLimitPartition.GetFixedWindowLimiter(
                http.Connection.RemoteIpAddress?.ToString() ?? "-",
                _ => new FixedWindowRateLimiterOptions { PermitLimit = HttpMethods.IsPost(http.Request.Method) ? perMinute : 600, Window = TimeSpan.FromMinutes(1) }));
        });
    }

    private static void ConfigureIdentity(IdentityOptions options)
    {
        options.User.RequireUniqueEmail = true;
        options.Password.RequiredLength = 12;
        options.Password.RequireDigit = false;
        options.Password.RequireLowercase = false;
        options.Password.RequireUppercase = false;
        options.Password.RequireNonAlphanumeric = false;
        options.Password.RequiredUniqueChars = 5;
        options.Lockout.MaxFailedAccessAttempts = 5;
        options.Lockout.DefaultLockoutTimeSpan = TimeSpan.FromMinutes(5);
    }
}

/// <summary>A person who left cannot sign in.</summary>
public sealed class StaffSignIn(
    UserManager<StaffMember> users, IHttpContextAccessor context, IUserClaimsPrincipalFactory<StaffMember> claims,
    IOptions<IdentityOptions> options, ILogger<SignInManager<StaffMember>> log,
    Microsoft.AspNetCore.Authentication.IAuthenticationSchemeProvider schemes, IUserConfirmation<StaffMember> confirmation)
    : SignInManager<StaffMember>(users, context, claims, options, log, schemes, confirmation)
{
    public override async Task<bool> CanSignInAsync(StaffMember user) => !user.Left && await base.CanSignInAsync(user);
}

/// <summary>Puts the role and the full name into the session.</summary>
public sealed class StaffClaims(UserManager<StaffMember> users, IOptions<IdentityOptions> options)
    : UserClaimsPrincipalFactory<StaffMember>(users, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(StaffMember user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new Claim(ClaimTypes.Role, user.Role.ToString()));
        identity.AddClaim(new Claim(ClaimTypes.GivenName, user.FullName));
        return identity;
    }
}

/// <summary>Refuses passwords that are long but guessed first: the commonest ones, runs, repeats, and the person's own name.
/// The list is from memory, not a published one.</summary>
public sealed class CommonPasswords : IPasswordValidator<StaffMember>
{
    private static readonly string[] Stems =
    [
        "password", "passw0rd", "letmein", "welcome", "qwerty", "asdfgh", "zxcvbn", "iloveyou", "sunshine", "princess", "football",
        "baseball", "monkey", "dragon", "master", "superman", "batman", "trustno", "admin", "changeme", "default", "secret",
        "summer", "winter", "spring", "autumn", "january", "february", "december", "radon", "mitigation", "office",
    ];

    public Task<IdentityResult> ValidateAsync(UserManager<StaffMember> manager, StaffMember user, string? password)
    {
        var bare = new string([.. (password ?? "").ToLowerInvariant().Where(char.IsLetter)]);
        var rest = Stems.Aggregate(bare, (left, stem) => left.Replace(stem, "", StringComparison.Ordinal));
        var own = (user.Email ?? "").Split('@')[0].ToLowerInvariant();
        var guessable = (bare != rest && rest.Length < 4) || IsRun(password ?? "") || (own.Length > 3 && bare.Replace(own, "", StringComparison.Ordinal).Length < 4);
        return Task.FromResult(guessable
            ? IdentityResult.Failed(new IdentityError { Code = "PasswordGuessable", Description = "This password is among the first ones that are guessed. Use a few unrelated words." })
            : IdentityResult.Success);
    }

    private static bool IsRun(string text) =>
        text.Length > 1 && text.Zip(text.Skip(1)).Count(pair => Math.Abs(pair.Second - pair.First) <= 1) >= text.Length - 2;
}
