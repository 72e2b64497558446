using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ApplicationModels;
using MitigationOffice.Web.Setup.Forms;
using MitigationOffice.Web.Setup.Lists;
using NetEscapades.AspNetCore.SecurityHeaders.Headers.PermissionsPolicy;

namespace MitigationOffice.Web.Setup;

public static class PagesSetup
{
    /// <summary>The only pages open to people who are not signed in; a test pins the list.</summary>
    public static readonly string[] OpenPages =
        ["/Account/SignIn", "/Account/FirstOwner", "/Account/NotAllowed", "/Error", "/Offer/Index", "/Offer/Paper", "/Offer/Done", "/Offer/Cancel",
        "/Offer/Change", "/Offer/ChangePaper", "/FollowUp/Unsubscribe", "/MyHouse/Index", "/SystemPage/Index", "/Calendar/Feed"];

    public static void AddOfficePages(this IServiceCollection services)
    {
        services.AddHttpContextAccessor();
        services.AddScoped<UnitChoice>();
        services.AddScoped<OneSending>();
        services.AddSingleton<SetUpWord>();
        services.AddAntiforgery(o =>
        {
            o.Cookie.Name = "office-form";
            o.Cookie.HttpOnly = true;
            o.Cookie.SameSite = SameSiteMode.Strict;
            o.FormFieldName = "_form";
        });
        services.AddRazorPages(options =>
        {
            foreach (var page in OpenPages) options.Conventions.AllowAnonymousToPage(page);
            options.Conventions.AuthorizeFolder("/Shop", SignInSetup.OfficeWork);
            options.Conventions.AuthorizeFolder("/Quotes", SignInSetup.OfficeWork);
            options.Conventions.AuthorizeFolder("/StateReports", SignInSetup.OfficeWork);
            options.Conventions.AuthorizeFolder("/Invoices", SignInSetup.OfficeWork);
            options.Conventions.AuthorizeFolder("/FollowUp", SignInSetup.OfficeWork);
            options.Conventions.AuthorizePage("/StateReports/NewProfile", SignInSetup.OwnerOnly);
            options.Conventions.AuthorizePage("/StateReports/ChangeProfile", SignInSetup.OwnerOnly);
            options.Conventions.AuthorizePage("/Service/Recalls", SignInSetup.OfficeWork);
            options.Conventions.AuthorizePage("/Service/Recall", SignInSetup.OfficeWork);
            options.Conventions.AuthorizePage("/Shop/Staff", SignInSetup.OwnerOnly);
            options.Conventions.AuthorizePage("/Shop/Company", SignInSetup.OwnerOnly);
            options.Conventions.ConfigureFilter(new SendOnceFilter());
            options.Conventions.ConfigureFilter(new HidePrivate());
        }).AddMvcOptions(mvc =>
        {
            mvc.MaxModelBindingCollectionSize = 12_000;
            mvc.SuppressImplicitRequiredAttributeForNonNullableReferenceTypes = true;
            mvc.ModelBindingMessageProvider.SetValueMustNotBeNullAccessor(_ => "Fill this in.");
        });
        services.AddRouting(o => o.LowercaseUrls = true);
        // Only what holds no secret: the size of a compressed page could be used to guess the marks in its forms.
        services.AddResponseCompression(o => (o.EnableForHttps, o.MimeTypes) = (true, ["text/css", "text/javascript", "image/svg+xml"]));
    }

    public static void UseOffice(this WebApplication app, string role)
    {
        app.UseForwardedHeaders();
        app.UseExceptionHandler("/error");
        app.UseStatusCodePagesWithReExecute("/error", "?code={0}");
        app.UseWhen(http => !IsJobs(http), rest => rest.UseSecurityHeaders(Headers(ownScripts: false)));
        app.UseWhen(IsJobs, jobs => jobs.UseSecurityHeaders(Headers(ownScripts: true)));
        app.Use(async (http, next) =>
        {
            http.Response.OnStarting(() =>
            {
                if (http.Response.ContentType?.StartsWith("text/html", StringComparison.Ordinal) == true) http.Response.Headers.CacheControl = "no-store";
                return Task.CompletedTask;
            });
            await next(http);
        });
        app.UseResponseCompression();
        app.UseStaticFiles(new StaticFileOptions { OnPrepareResponse = c => c.Context.Response.Headers.CacheControl = "public, max-age=31536000, immutable" });
        app.UseRouting();
        app.UseRateLimiter();
        app.UseAuthentication();
        app.UseMiddleware<WhoActs>();
        app.UseAuthorization();
        app.MapRazorPages();
        app.MapGet("/health", () => "ok").AllowAnonymous();
        app.MapOfficeJobs(role);
    }

    private static bool IsJobs(HttpContext http) => http.Request.Path.StartsWithSegments("/jobs", StringComparison.OrdinalIgnoreCase);

    /// <param name="ownScripts">For the scheduler's own pages, which know no nonce and write a style into one element.</param>
    private static HeaderPolicyCollection Headers(bool ownScripts) => new HeaderPolicyCollection()
        .AddFrameOptionsDeny()
        .AddContentTypeOptionsNoSniff()
        .AddReferrerPolicyNoReferrer()
        .AddCrossOriginOpenerPolicy(b => b.SameOrigin())
        .AddCrossOriginResourcePolicy(b => b.SameOrigin())
        .AddStrictTransportSecurityMaxAgeIncludeSubDomains(60 * 60 * 24 * 365)
        .RemoveServerHeader()
        .AddPermissionsPolicy(b =>
        {
            b.AddCamera().None();
            b.AddMicrophone().None();
            b.AddGeolocation().None();
            b.AddPayment().None();
            b.AddUsb().None();
        })
        .AddContentSecurityPolicy(b =>
        {
            b.AddDefaultSrc().None();
            if (ownScripts) b.AddScriptSrc().Self();
            else b.AddScriptSrc().WithNonce();
            var styles = b.AddStyleSrc().Self();
            if (ownScripts) styles.UnsafeInline();
            b.AddImgSrc().Self().Data();
            b.AddFontSrc().Self();
            b.AddConnectSrc().Self();
            b.AddFormAction().Self();
            b.AddFrameAncestors().None();
            b.AddBaseUri().None();
            b.AddObjectSrc().None();
            b.AddManifestSrc().Self();
            b.AddWorkerSrc().Self();
        });
}
