using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Setup.Forms;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>Test kits of all houses: out, in a room, at the laboratory, read, lost.</summary>
public sealed class KitsModel(OfficeDb db, TimeProvider clock) : PageModel
{
    public const int Most = 200;

    public sealed record Row(TestKit Kit, string House);

    [BindProperty(SupportsGet = true)]
    public string Show { get; set; } = "open";

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public DateOnly Today { get; private set; }

    public Task OnGetAsync() => LoadAsync(Most + 1);

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await LoadAsync(int.MaxValue);
        return CsvAnswer.Of("kits.csv", ["Serial", "Kind", "House", "With", "Independent", "Out on", "Back by", "Asked on", "To laboratory on", "Laboratory", "State"], Rows.Select(r => (IReadOnlyList<string>)
            [r.Kit.Serial, Words.Of(r.Kit.Kind), r.House, r.Kit.HandedTo, r.Kit.IndependentTester ? "yes" : "no", TypedNumbers.Plain(r.Kit.OutOn), TypedNumbers.Plain(r.Kit.BackBy), TypedNumbers.Plain(r.Kit.AskedOn), TypedNumbers.Plain(r.Kit.SentToLabOn), r.Kit.Lab, Words.Of(r.Kit.State)]));
    }

    public bool IsLate(TestKit kit) => kit.State is KitState.Out or KitState.Placed && kit.BackBy < Today;

    private async Task LoadAsync(int most)
    {
        Today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        var today = Today;
        var kits = db.TestKits.AsNoTracking();
        kits = Show switch
        {
            "late" => kits.Where(k => k.LostOn == null && !k.HasResult && k.SentToLabOn == null && k.BackBy < today),
            "lab" => kits.Where(k => k.LostOn == null && !k.HasResult && k.SentToLabOn != null),
            "read" => kits.Where(k => k.HasResult),
            "lost" => kits.Where(k => k.LostOn != null),
            "all" => kits,
            _ => kits.Where(k => k.LostOn == null && !k.HasResult),
        };
        var joined = from k in kits join h in db.Houses on k.HouseId equals h.Id select new { k, h };
        if (SearchText.Of(Find) is { Length: > 0 } find)
        {
            var key = Business.Shop.Instrument.KeyOf(Find);
            joined = joined.Where(x => x.h.Search.Contains(find) || (key != "" && x.k.SerialKey.Contains(key)));
        }

        Rows = await joined.OrderBy(x => x.k.BackBy).ThenBy(x => x.k.Id).Take(most).Select(x => new Row(x.k, x.h.Street + ", " + x.h.City)).ToListAsync();
    }
}
