using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>Kits given out to a house, and one kit on its way back.</summary>
public sealed class KitModel(OfficeDb db, TimeProvider clock) : PageModel
{
    [BindProperty]
    public KitForm Input { get; set; } = new();

    [BindProperty]
    public int Version { get; set; }

    [FromRoute(Name = "id")]
    public string Wanted { get; set; } = "";

    [BindProperty(SupportsGet = true, Name = "house")]
    public int? HouseId { get; set; }

    public bool IsNew => Wanted == "new";
    public TestKit? Kit { get; private set; }
    public string House { get; private set; } = "";
    public IReadOnlyList<(string Value, string Words)> Batches { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;
    public DateOnly Today { get; private set; }
    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    public async Task<IActionResult> OnGetAsync()
    {
        if (!await LoadAsync()) return NotFound();
        if (!IsNew) (Input, Version) = await ReadAsync();
        else (Input.OutOn, Input.HandedTo) = (TypedNumbers.Plain(Today), HouseId is null ? "" : await db.HouseOwners.Where(o => o.HouseId == HouseId && o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Name).FirstOrDefaultAsync() ?? "");
        return Page();
    }

    public async Task<IActionResult> OnPostAsync()
    {
        if (!await LoadAsync() || HouseId is not { } house) return NotFound();
        var read = new FormReading(ModelState, nameof(Input), UnitSystem.US);
        if (IsNew) return await GiveOutAsync(house, read);
        var kit = await db.TestKits.SingleAsync(k => k.Id == Kit!.Id);
        var serials = Input.SerialList(read);
        Input.Write(kit, read, Today);
        if (serials.Count > 1) read.Refuse(nameof(KitForm.Serials), "This is one kit; write one serial number.");
        if (serials.Count == 1) await CheckFreeAsync(serials, read, kit.Id);
        if (serials.Count > 0) (kit.Serial, kit.SerialKey) = (serials[0], Instrument.KeyOf(serials[0]));
        var result = read.Number(Input.Result, nameof(KitForm.Result), "result in pCi/L", 0m, 100_000m);
        var ended = Input.Ended.Read(read, nameof(KitForm.Ended), "closing the kit", Zone);
        if (result is not null && kit.LostOn is not null) read.Refuse(nameof(KitForm.LostOn), "A kit with a result is not lost. Empty one of the two.");
        if (!ModelState.IsValid) return Page();
        db.Expect(kit, Version);
        if (!await db.TrySaveAsync(ModelState, nameof(Input), Input, ReadAsync, v => Version = v)) return Page();
        if (result is { } pCiL)
            foreach (var refusal in await LinkKits.ResultAsync(db, kit.Id, pCiL, ended, Now)) read.Refuse(refusal.Field, refusal.Words);
        if (ModelState.IsValid) return RedirectToPage("/Tests/Kits");
        (_, Version) = await ReadAsync();
        ModelState.Remove(nameof(Version));
        return Page();
    }

    private async Task<IActionResult> GiveOutAsync(int house, FormReading read)
    {
        var serials = Input.SerialList(read);
        await CheckFreeAsync(serials, read, 0);
        var first = new TestKit { Serial = "" };
        Input.Write(first, read, Today);
        if (first.BatchId is { } batch && await db.Instruments.Where(i => i.Id == batch).Select(i => i.UseBy).FirstOrDefaultAsync() is { } useBy && useBy < first.OutOn)
            read.Refuse(nameof(KitForm.Batch), $"This batch is not to be opened after {HouseTime.Show(useBy)}. Take kits of another batch.");
        if (!ModelState.IsValid) return Page();
        foreach (var serial in serials)
        {
            var kit = new TestKit { HouseId = house, Serial = serial, SerialKey = Instrument.KeyOf(serial) };
            Input.Write(kit, read, Today);
            db.TestKits.Add(kit);
        }

        await db.SaveChangesAsync();
        return RedirectToPage("/Tests/Kits");
    }

    /// <summary>A serial number goes out once; a lost kit's number may come back.</summary>
    private async Task CheckFreeAsync(IReadOnlyList<string> serials, FormReading read, int except)
    {
        var keys = serials.Select(Instrument.KeyOf).ToList();
        if (await db.TestKits.AsNoTracking().Where(k => k.Id != except && k.LostOn == null && keys.Contains(k.SerialKey)).Select(k => new { k.Serial, Street = db.Houses.Where(h => h.Id == k.HouseId).Select(h => h.Street).FirstOrDefault() }).FirstOrDefaultAsync() is { } taken)
            read.Refuse(nameof(KitForm.Serials), $"Kit {taken.Serial} went out to {taken.Street} already. Look at the number on the kit.");
    }

    private async Task<bool> LoadAsync()
    {
        var id = int.TryParse(Wanted, CultureInfo.InvariantCulture, out var number) ? number : 0;
        Kit = IsNew ? null : await db.TestKits.AsNoTracking().FirstOrDefaultAsync(k => k.Id == id);
        if (!IsNew && Kit is null) return false;
        HouseId = Kit?.HouseId ?? HouseId;
        if (HouseId is { } house)
        {
            var found = await db.Houses.Where(h => h.Id == house).Select(h => h.Street + ", " + h.City).FirstOrDefaultAsync();
            if (found is null) return false;
            (House, Zone) = (found, await HouseZone.OfAsync(db, house));
        }

        Today = HouseTime.DayOf(Now, Zone);
        var batches = await db.Instruments.Where(i => !i.Retired && (i.Kind == InstrumentKind.CharcoalBatch || i.Kind == InstrumentKind.AlphaTrackBatch || i.Kind == InstrumentKind.ElectretBatch)).OrderBy(i => i.UseBy).Select(i => new { i.Id, i.Serial, i.UseBy }).ToListAsync();
        Batches = [("", "not noted"), .. batches.Select(b => (b.Id.ToString(CultureInfo.InvariantCulture), $"{b.Serial}{(b.UseBy is { } last ? $", to {HouseTime.Show(last)}" : "")}"))];
        return true;
    }

    private async Task<(KitForm, int)> ReadAsync()
    {
        var kit = await db.TestKits.AsNoTracking().SingleAsync(k => k.Id == Kit!.Id);
        var test = kit.TestDeviceId is null ? null : await db.RadonTests.AsNoTracking().Where(t => t.Devices.Any(d => d.Id == kit.TestDeviceId)).Select(t => new { t.EndedAtUtc, PCiL = t.Devices.Where(d => d.Id == kit.TestDeviceId).Select(d => d.PCiL).FirstOrDefault() }).FirstOrDefaultAsync();
        return (KitForm.Of(kit, test?.PCiL, test?.EndedAtUtc, Zone), kit.Version);
    }
}
