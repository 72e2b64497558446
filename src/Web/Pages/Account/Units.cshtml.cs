using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Account;

public sealed class UnitsModel(UnitChoice units) : PageModel
{
    public IActionResult OnGet() => LocalRedirect("/");

    public IActionResult OnPost(string? back)
    {
        Response.Cookies.Append(UnitChoice.Cookie, units.System == UnitSystem.US ? "SI" : "US", new CookieOptions
        {
            HttpOnly = true,
            SameSite = SameSiteMode.Lax,
            Secure = Request.IsHttps,
            MaxAge = TimeSpan.FromDays(400),
        });
        return LocalRedirect(Url.IsLocalUrl(back) ? back : "/");
    }
}
