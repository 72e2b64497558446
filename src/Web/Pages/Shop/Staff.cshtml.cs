using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Staff;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Shop;

public sealed class StaffModel(OfficeDb db, UserManager<StaffMember> users) : PageModel
{
    public sealed record Person(int Id, string FullName, string Email, StaffRole Role, bool Left);

    public sealed class Form
    {
        public string? FullName { get; set; }
        public string? Email { get; set; }
        public StaffRole Role { get; set; } = StaffRole.Installer;
        public string? Password { get; set; }
    }

    [BindProperty]
    public Form Input { get; set; } = new();
    public IReadOnlyList<Person> People { get; private set; } = [];

    public Task OnGetAsync() => ReadAsync();

    public async Task<IActionResult> OnPostAsync()
    {
        var read = new FormReading(ModelState, nameof(Input), UnitSystem.US);
        var name = read.Text(Input.FullName, nameof(Form.FullName), "name", needed: true, most: 100);
        var email = read.Text(Input.Email, nameof(Form.Email), "e-mail address", needed: true, most: 254);
        if (email.Length > 0 && !email.Contains('@', StringComparison.Ordinal)) read.Refuse(nameof(Form.Email), "Write the e-mail address with its @.");
        if (ModelState.IsValid)
        {
            var made = await users.CreateAsync(new StaffMember { UserName = email, Email = email, FullName = name, Role = Input.Role }, Input.Password ?? "");
            if (made.Succeeded) return RedirectToPage();
            foreach (var error in made.Errors)
                read.Refuse(error.Code.StartsWith("Password", StringComparison.Ordinal) ? nameof(Form.Password) : nameof(Form.Email), error.Description);
        }

        await ReadAsync();
        return Page();
    }

    public async Task<IActionResult> OnPostChangeAsync(int id, StaffRole role, string? act)
    {
        var person = await users.Users.SingleOrDefaultAsync(u => u.Id == id);
        if (person is null) return NotFound();
        if (act == "role") person.Role = role;
        else person.Left = act == "left";
        if (!await db.Users.AnyAsync(u => u.Id != id && u.Role == StaffRole.Owner && !u.Left) && (person.Role != StaffRole.Owner || person.Left))
        {
            db.ChangeTracker.Clear();
            ModelState.AddModelError("", "An office needs an owner who can sign in. Make someone else an owner first.");
            await ReadAsync();
            return Page();
        }

        await users.UpdateSecurityStampAsync(person);
        return RedirectToPage();
    }

    private async Task ReadAsync() => People = await db.Users.AsNoTracking().OrderBy(u => u.Left).ThenBy(u => u.FullName)
        .Select(u => new Person(u.Id, u.FullName, u.Email ?? "", u.Role, u.Left)).ToListAsync();
}
