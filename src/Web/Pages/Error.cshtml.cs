using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace MitigationOffice.Web.Pages;

[IgnoreAntiforgeryToken]
[ResponseCache(NoStore = true)]
public sealed class ErrorModel : PageModel
{
    public string Heading { get; private set; } = "Something went wrong";
    public string Words { get; private set; } = "Nothing of what you saved before is lost. Go back and try again; if it happens again, tell the person who looks after the program what you did.";

    public void OnGet(int code = 0) => Tell(code);

    public void OnPost(int code = 0) => Tell(code);

    private void Tell(int code)
    {
        if (HttpContext.Features.Get<IStatusCodeReExecuteFeature>() is null) code = Math.Max(Response.StatusCode, 400);
        (Heading, Words) = code switch
        {
            400 => ("This form was too old or incomplete", "Go back, reload the page and send it again. What you typed is still in the page you came from."),
            403 => ("Not for your role", "Ask the owner of the office if you should see this."),
            404 => ("Nothing here", "The link is old or mistyped, or the record belongs to someone else."),
            409 => ("Already being done", "The same form is still at work. Wait a moment, then look whether it is there."),
            413 => ("Too large", "The file or form is larger than the office takes. Send a smaller one."),
            429 => ("Too many tries", "Wait a minute, go back and send it again: what you typed is still in the page you came from."),
            _ => (Heading, Words),
        };
    }
}
