using Microsoft.AspNetCore.Mvc.RazorPages;

namespace MitigationOffice.Web.Pages.Today;

public sealed class IndexModel : PageModel
{
    public void OnGet()
    {
    }
}
