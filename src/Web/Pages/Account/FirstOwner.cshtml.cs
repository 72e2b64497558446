using System.Net;
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
public sealed class FirstOwnerModel(OfficeDb db, UserManager<StaffMember> users, SignInManager<StaffMember> signIn, SetUpWord word) : PageModel
{
    public sealed class Form
    {
        public string? FullName { get; set; }
        public string? Email { get; set; }
        public string? Password { get; set; }
        public string? Secret { get; set; }
    }

    [BindProperty]
    public Form Input { get; set; } = new();

    /// <summary>Someone at the machine itself needs no set-up word; someone on the network does, also through a proxy on
    /// this machine that the settings do not list.</summary>
    public bool AsksSecret =>
        (HttpContext.Connection.RemoteIpAddress is { } from && !IPAddress.IsLoopback(from)) || Request.Headers.ContainsKey("X-Forwarded-For");

    public async Task<IActionResult> OnGetAsync() =>
        await db.Users.AnyAsync() ? RedirectToPage("/Account/SignIn") : Page();

    public async Task<IActionResult> OnPostAsync()
    {
        if (await db.Users.AnyAsync()) return RedirectToPage("/Account/SignIn");
        var read = new FormReading(ModelState, nameof(Input), UnitSystem.US);
        var name = read.Text(Input.FullName, nameof(Form.FullName), "name", needed: true, most: 100);
        var email = read.Text(Input.Email, nameof(Form.Email), "e-mail address", needed: true, most: 254);
        if (!email.Contains('@', StringComparison.Ordinal)) read.Refuse(nameof(Form.Email), "Write the e-mail address with its @.");
        if (AsksSecret && !word.Is(Input.Secret)) read.Refuse(nameof(Form.Secret), "That is not the set-up word printed when the program started.");
        if (!ModelState.IsValid) return Page();
        var owner = new StaffMember { UserName = email, Email = email, FullName = name, Role = StaffRole.Owner };
        var made = await users.CreateAsync(owner, Input.Password ?? "");
        foreach (var error in made.Errors) read.Refuse(error.Code.StartsWith("Password", StringComparison.Ordinal) ? nameof(Form.Password) : nameof(Form.Email), error.Description);
        if (!made.Succeeded) return Page();
        await signIn.SignInAsync(owner, isPersistent: false);
        return LocalRedirect("/");
    }
}
