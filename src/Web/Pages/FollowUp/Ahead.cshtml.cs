using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>What comes due in the next 24 months, one by one with its reason, and what the retests among it may bring.</summary>
public sealed class AheadModel(OfficeDb db, TimeProvider clock) : PageModel
{
    private const int PageRows = 100;

    public sealed record Row(int Id, int? HouseId, string House, string For, string RuleCode, string Rule, DateOnly DueOn, DateOnly SendOn, string Because);

    [BindProperty(SupportsGet = true)]
    public string? Rule { get; set; }

    /// <summary>"2027-03"; empty: all 24 months.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Month { get; set; }

    /// <summary>What one retest brings, dollars as typed.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Each { get; set; }

    /// <summary>How many in a hundred book it with us.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Share { get; set; }

    [BindProperty(SupportsGet = true)]
    public int Skip { get; set; }

    public IReadOnlyList<Row> Rows { get; private set; } = [];
    public int All { get; private set; }
    public bool More => Skip + Rows.Count < All;
    public IReadOnlyList<(string Value, string Words)> Rules { get; private set; } = [];
    public IReadOnlyList<(DateOnly Month, int Count)> Retests { get; private set; } = [];
    public decimal EachDollars { get; private set; } = 150m;
    public decimal SharePercent { get; private set; } = 40m;

    public decimal Revenue(int retests) => Math.Round(retests * EachDollars * SharePercent / 100m, 0, MidpointRounding.AwayFromZero);

    public async Task OnGetAsync()
    {
        var (each, wrong) = TypedNumbers.ReadMoney(Each, "price of a retest", 10_000m);
        if (wrong is not null) ModelState.AddModelError(nameof(Each), wrong);
        var (share, no) = TypedNumbers.ReadDecimal(Share, "share that books", 0m, 100m);
        if (no is not null) ModelState.AddModelError(nameof(Share), no);
        (EachDollars, SharePercent, Skip) = (each?.Dollars ?? EachDollars, share ?? SharePercent, Math.Clamp(Skip, 0, 1_000_000));
        var first = await FirstAsync();
        Rules = [.. (await db.ReminderRules.AsNoTracking().OrderBy(r => r.Id).Select(r => new { r.Code, r.Name }).ToListAsync()).Select(r => (r.Code, r.Name))];
        var testing = await db.ReminderRules.Where(r => r.Anchor == ReminderAnchor.LastValidTest).Select(r => r.Code).ToListAsync();
        var counts = (await Ahead(first).Where(r => testing.Contains(r.RuleCode)).GroupBy(r => new { r.DueOn.Year, r.DueOn.Month }).Select(g => new { g.Key, Count = g.Count() }).ToListAsync())
            .ToDictionary(c => new DateOnly(c.Key.Year, c.Key.Month, 1), c => c.Count);
        Retests = [.. Enumerable.Range(0, 24).Select(i => first.AddMonths(i)).Select(m => (m, counts.GetValueOrDefault(m)))];
        All = await Wanted(first).CountAsync();
        Rows = await Listed(Wanted(first)).Skip(Skip).Take(PageRows).ToListAsync();
    }

    public async Task<IActionResult> OnGetCsvAsync() => Sheet.Csv(
        "ahead.csv", ["Due", "Goes out", "What", "House", "For", "Because"], (await Listed(Wanted(await FirstAsync())).ToListAsync()).Select(r => (string[])
        [
            r.DueOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), r.SendOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), r.Rule, r.House, r.For, r.Because,
        ]));

    private async Task<DateOnly> FirstAsync()
    {
        var today = HouseTime.DayOf(clock.GetUtcNow().UtcDateTime, HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync()));
        return today.AddDays(1 - today.Day);
    }

    private IQueryable<Reminder> Ahead(DateOnly first)
    {
        var end = first.AddMonths(24);
        return db.Reminders.AsNoTracking().Where(r => r.State == ReminderState.Planned && r.DueOn >= first && r.DueOn < end);
    }

    private IQueryable<Reminder> Wanted(DateOnly first)
    {
        var wanted = Ahead(first);
        if (Rule is { Length: > 0 } rule) wanted = wanted.Where(r => r.RuleCode == rule);
        if (DateOnly.TryParseExact($"{Month}-01", "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var month) && month.Year < 9000)
            wanted = wanted.Where(r => r.DueOn >= month && r.DueOn < month.AddMonths(1));
        return wanted;
    }

    private IQueryable<Row> Listed(IQueryable<Reminder> reminders) => reminders.OrderBy(r => r.DueOn).ThenBy(r => r.Id).Select(r => new Row(
        r.Id, r.HouseId, db.Houses.Where(h => h.Id == r.HouseId).Select(h => h.Street + ", " + h.City).FirstOrDefault() ?? "",
        db.HouseOwners.Where(o => o.HouseId == r.HouseId && o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Name).FirstOrDefault() ?? "",
        r.RuleCode, db.ReminderRules.Where(x => x.Code == r.RuleCode).Select(x => x.Name).FirstOrDefault() ?? r.RuleCode, r.DueOn, r.SendOn, r.Because));
}
