using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Staff;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Account;

[EnableRateLimiting(SignInSetup.Throttled)]
public sealed class SignInModel(OfficeDb db, SignInManager<StaffMember> signIn, UserManager<StaffMember> users) : PageModel
{
    public sealed class Form
    {
        public string? Email { get; set; }
        public string? Password { get; set; }
    }

    [BindProperty]
    public Form Input { get; set; } = new();

    [BindProperty(SupportsGet = true, Name = "back")]
    public string? Back { get; set; }

    public async Task<IActionResult> OnGetAsync([FromQuery(Name = "ReturnUrl")] string? returnUrl)
    {
        if (!await db.Users.AnyAsync()) return RedirectToPage("/Account/FirstOwner");
        Back ??= returnUrl;
        return User.Identity?.IsAuthenticated == true ? LocalRedirect("/") : Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        var read = new FormReading(ModelState, nameof(Input), UnitSystem.US);
        var email = read.Text(Input.Email, nameof(Form.Email), "e-mail address", needed: true, most: 254);
        if (string.IsNullOrEmpty(Input.Password)) read.Refuse(nameof(Form.Password), "Write the password.");
        if (!ModelState.IsValid) return Page();
        var person = await users.FindByEmailAsync(email);
        if (person is null) users.PasswordHasher.HashPassword(new StaffMember(), Input.Password!);
        var result = person is null ? Microsoft.AspNetCore.Identity.SignInResult.Failed : await signIn.PasswordSignInAsync(person, Input.Password!, isPersistent: false, lockoutOnFailure: true);
        if (result.Succeeded) return LocalRedirect(Url.IsLocalUrl(Back) ? Back : "/");
        read.Refuse("", "This e-mail address and password do not open the office. After five wrong tries in a row the account rests for five minutes.");
        return Page();
    }
}
