using System.Security.Claims;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup;

/// <summary>Tells the records who is acting in this request.</summary>
public sealed class WhoActs(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext http, Actor actor)
    {
        if (http.User.Identity?.IsAuthenticated == true)
            actor.Name = http.User.FindFirstValue(ClaimTypes.GivenName) ?? http.User.Identity.Name ?? "?";
        else actor.Name = "a visitor";
        await next(http);
    }
}
