using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Web.Pages.Shared;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>What the winter does to the outdoor pipe: temperatures, water, ice, and what keeps it open.</summary>
public sealed class WinterModel(OfficeDb db) : PageModel
{
    public sealed record Weather(string Station, string FileName, DateOnly FirstDay, DateOnly LastDay, int Winters, bool SetAside);

    public int HouseId { get; private set; }
    public SuctionDesign? Design { get; private set; }
    public DesignResult Result { get; private set; } = new(null, null, false, false);
    public FreezeReport? Forecast { get; private set; }
    public string? WhyNone { get; private set; }
    public Weather? Climate { get; private set; }
    public bool SeesMoney => User.IsInRole("Owner") || User.IsInRole("Office");

    /// <summary>About ten places along the run, the first and the last among them, as they are in design cold and at the January mean.</summary>
    public IEnumerable<(RunStation Cold, RunStation January)> Places()
    {
        var (cold, january) = (Forecast!.AtDesign.Stations, Forecast.AtJanuaryMean.Stations);
        var count = Math.Min(10, cold.Count);
        return Enumerable.Range(0, count).Select(i => count == 1 ? 0 : i * (cold.Count - 1) / (count - 1)).Distinct().Select(i => (cold[i], january[i]));
    }

    public async Task<IActionResult> OnGetAsync(int houseId, string? revision)
    {
        if (await HouseHead.LoadAsync(db, houseId, shown: 3) is not { } head) return NotFound();
        HouseId = houseId;
        Design = await db.FirstToReadAsync(db.Designs.Where(d => d.HouseId == houseId && (revision == null || d.Revision == revision))
            .OrderByDescending(d => d.Revision.Length).ThenByDescending(d => d.Revision));
        if (Design is null && revision is not null) return NotFound();
        ViewData["House"] = head with { Revision = Design?.Revision ?? "–", Date = Design?.ComputedAtUtc is { } at ? HouseTime.Show(DateOnly.FromDateTime(at)) : "–" };
        Climate = await db.Climates.Where(c => c.HouseId == houseId).Select(c => new Weather(c.Station, c.FileName, c.FirstDay, c.LastDay, c.Winters, c.SetAside)).FirstOrDefaultAsync();
        if (Design is not null) await ForeseeAsync(Design);
        return Page();
    }

    private async Task ForeseeAsync(SuctionDesign design)
    {
        Result = await ComputeDesign.ReadAsync(db, design);
        if (Result is not { Report: { } report, Inputs: { } inputs }) return;
        (Forecast, WhyNone) = KeptForecasts.Of($"{inputs.Hash} {report.EngineVersion} {report.ShownFan}", () => ComputeReport.Winter(inputs.File, report.ShownFan));
    }
}
