using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.RateLimiting;

namespace MitigationOffice.Web.Setup;

/// <summary>What guards the house owner's pages: a limit on tries, and who may see the signed copy.</summary>
public static class OfferSetup
{
    public const string Throttled = "offer";

    public static void AddOffer(this IServiceCollection services, IConfiguration configuration)
    {
        var (reads, sends) = (configuration.GetValue("Offer:ReadsPerMinute", 300), configuration.GetValue("Offer:SendsPerMinute", 20));
        services.Configure<RateLimiterOptions>(limiter => limiter.AddPolicy(Throttled, http =>
        {
            var sending = HttpMethods.IsPost(http.Request.Method);
            return RateLimitPartition.GetFixedWindowLimiter(
                $"{http.Connection.RemoteIpAddress}|{sending}",
                _ => new FixedWindowRateLimiterOptions { PermitLimit = sending ? sends : reads, Window = TimeSpan.FromMinutes(1) });
        }));
        services.AddScoped<JustSigned>();
    }
}

/// <summary>Remembers for an hour, in the browser that signed, that it may see the signed copy: the link alone shows
/// nothing any more once a quote or a change order is signed.</summary>
public sealed class JustSigned(IDataProtectionProvider protection, TimeProvider clock)
{
    private const string Quote = "offer-signed";
    private const string Change = "change-signed";

    public void Remember(HttpContext http, int acceptanceId) => Keep(http, Quote, acceptanceId);

    public void RememberChange(HttpContext http, int signatureId) => Keep(http, Change, signatureId);

    /// <summary>The acceptance this browser made within the hour, or null.</summary>
    public int? Of(HttpContext http) => Read(http, Quote);

    /// <summary>The signature under a change order that this browser made within the hour, or null.</summary>
    public int? OfChange(HttpContext http) => Read(http, Change);

    private void Keep(HttpContext http, string cookie, int id) => http.Response.Cookies.Append(
        cookie,
        protection.CreateProtector(cookie).Protect(string.Create(CultureInfo.InvariantCulture, $"{id}|{clock.GetUtcNow().AddHours(1).UtcTicks}")),
        new CookieOptions { HttpOnly = true, Secure = http.Request.IsHttps, SameSite = SameSiteMode.Strict, Path = "/offer", IsEssential = true });

    private int? Read(HttpContext http, string cookie)
    {
        if (http.Request.Cookies[cookie] is not { Length: > 0 and < 2000 } sealedText) return null;
        try
        {
            var parts = protection.CreateProtector(cookie).Unprotect(sealedText).Split('|');
            var until = long.Parse(parts[1], CultureInfo.InvariantCulture);
            return until > clock.GetUtcNow().UtcTicks ? int.Parse(parts[0], CultureInfo.InvariantCulture) : null;
        }
        catch (Exception e) when (e is System.Security.Cryptography.CryptographicException or FormatException or IndexOutOfRangeException)
        {
            return null;
        }
    }
}
