using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Staff;

namespace MitigationOffice.Web.Pages.Account;

public sealed class SignOutModel(SignInManager<StaffMember> signIn, UserManager<StaffMember> users) : PageModel
{
    public IActionResult OnGet() => LocalRedirect("/");

    /// <summary>Ends every session of this person on every device: a cookie copied from this one opens nothing.</summary>
    public async Task<IActionResult> OnPostAsync()
    {
        if (await users.GetUserAsync(User) is { } person) await users.UpdateSecurityStampAsync(person);
        await signIn.SignOutAsync();
        return RedirectToPage("/Account/SignIn");
    }
}
