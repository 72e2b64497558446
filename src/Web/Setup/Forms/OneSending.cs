using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>Makes the same form, sent twice, act once: a double click, a retry after a lost answer, the back button.</summary>
public sealed class OneSending(OfficeDb db, TimeProvider clock)
{
    public const string Field = "_once";

    /// <summary>True for the first sending of this key; otherwise where the first one led.</summary>
    public async Task<(bool First, string? LedTo)> ClaimAsync(string key)
    {
        for (var tries = 0; tries < 40; tries++)
        {
            var earlier = await db.Submissions.AsNoTracking().FirstOrDefaultAsync(s => s.Key == key);
            if (earlier?.LedTo is { } ledTo) return (false, ledTo);
            if (earlier is null && await TryAddAsync(key)) return (true, null);
            await Task.Delay(TimeSpan.FromMilliseconds(100));
        }

        return (false, null);
    }

    public Task FinishAsync(string key, string ledTo) =>
        db.WriteAsync(() => db.Submissions.Where(s => s.Key == key).ExecuteUpdateAsync(s => s.SetProperty(x => x.LedTo, ledTo)));

    public Task ReleaseAsync(string key) => db.WriteAsync(() => db.Submissions.Where(s => s.Key == key).ExecuteDeleteAsync());

    private async Task<bool> TryAddAsync(string key)
    {
        var row = db.Submissions.Add(new Submission { Key = key, AtUtc = clock.GetUtcNow().UtcDateTime });
        try
        {
            await db.SaveChangesAsync();
            return true;
        }
        catch (DbUpdateException)
        {
            return false;
        }
        finally
        {
            row.State = EntityState.Detached;
        }
    }
}

/// <summary>Applies <see cref="OneSending"/> to every posted form that carries its key.</summary>
public sealed class SendOnceFilter : IAsyncPageFilter
{
    public Task OnPageHandlerSelectionAsync(PageHandlerSelectedContext context) => Task.CompletedTask;

    public async Task OnPageHandlerExecutionAsync(PageHandlerExecutingContext context, PageHandlerExecutionDelegate next)
    {
        var request = context.HttpContext.Request;
        if (!HttpMethods.IsPost(request.Method) || !request.HasFormContentType || request.Form[OneSending.Field].ToString() is not { Length: > 0 and <= 64 } posted)
        {
            await next();
            return;
        }

        var key = $"{request.Path}|{posted}";
        var sending = context.HttpContext.RequestServices.GetRequiredService<OneSending>();
        var (first, ledTo) = await sending.ClaimAsync(key);
        if (!first)
        {
            context.Result = ledTo is null ? new StatusCodeResult(StatusCodes.Status409Conflict) : new LocalRedirectResult(ledTo);
            return;
        }

        var done = await next();
        if (done.Exception is null && Destination(done.Result, context) is { } url) await sending.FinishAsync(key, url);
        else await sending.ReleaseAsync(key);
    }

    private static string? Destination(IActionResult? result, PageHandlerExecutingContext context)
    {
        var urls = context.HttpContext.RequestServices.GetRequiredService<Microsoft.AspNetCore.Mvc.Routing.IUrlHelperFactory>().GetUrlHelper(context);
        return result switch
        {
            RedirectToPageResult page => urls.Page(page.PageName, page.PageHandler, page.RouteValues, null, null, page.Fragment),
            LocalRedirectResult local => local.Url,
            RedirectResult redirect when urls.IsLocalUrl(redirect.Url) => redirect.Url,
            _ => null,
        };
    }
}
