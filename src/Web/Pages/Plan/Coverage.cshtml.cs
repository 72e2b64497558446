using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Pages.Shared;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Drawings;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>Everything is asked for in the address, so that a map can be kept as a link.</summary>
public sealed class CoverageModel(OfficeDb db, UnitChoice units) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int HouseId { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Test { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Setting { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Target { get; set; }

    /// <summary>Where a further suction point is tried.</summary>
    [BindProperty(SupportsGet = true)]
    public string? At { get; set; }

    /// <summary>Has the best place searched; wins over <see cref="At"/>.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Best { get; set; }

    public CoverageSheet? Sheet { get; private set; }
    public string? WhyNone { get; private set; }
    public string? TargetProblem { get; private set; }
    public string? AtProblem { get; private set; }
    public int? PlacesTried { get; private set; }
    public FanSetting? Shown { get; private set; }
    public IReadOnlyList<FanSetting> Settings { get; private set; } = [];
    public DateOnly? Day { get; private set; }

    public async Task<IActionResult> OnGetAsync()
    {
        if (await HouseHead.LoadAsync(db, HouseId, shown: 2) is not { } head) return NotFound();
        var test = await TestAsync();
        if (test is null && Test is not null) return NotFound();
        (ViewData["House"], ViewData["Title"]) = (head with { Date = test is null ? "–" : HouseTime.Show(test.Day) }, $"Coverage of the slab, {head.Address}");
        if (test is null || test.Settings.Count == 0) WhyNone = "A map is fitted to the readings of a PFE test; there are none yet.";
        else await MapAsync(test);
        return Page();
    }

    public string Address(string sheet) => string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/{sheet}{(Test is { } id ? $"?test={id}" : "")}");

    private async Task MapAsync(PressureFieldTest test)
    {
        (Day, Settings) = (test.Day, [.. test.Settings.OrderBy(s => s.Position)]);
        Shown = Settings.FirstOrDefault(s => s.Id == Setting) ?? Settings.MaxBy(s => s.PitVacuumPa)!;
        var plan = FloorPlan.Of(await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == HouseId));
        var ground = MapCoverage.Of(plan, test, Shown, await TargetAsync());
        WhyNone = ground.WhyNone;
        if (ground.Slab is not { } slab) return;
        var further = Further(slab, plan, Shown.PitVacuumPa);
        var picture = PlanPicture.Of(await db.Backdrops.AsNoTracking().FirstOrDefaultAsync(b => b.HouseId == HouseId));
        Sheet = new CoverageSheet(plan, test, slab, further.Place, further.Map, picture, units.System);
    }

    private (SuctionPlace? Place, CoverageMap? Map) Further(SlabCoverage slab, FloorPlan plan, double pitVacuumPa)
    {
        if (!string.IsNullOrEmpty(Best)) return Propose(slab, plan, pitVacuumPa);
        var (at, problem) = ReadPlaces.One(At, "the further point", units.System);
        AtProblem = problem;
        if (at is not { } place) return default;
        try
        {
            var point = new SuctionPlace { Name = "Further point", At = place, PitVacuumPa = pitVacuumPa };
            return (point, slab.WhatIf(point));
        }
        catch (ArgumentException)
        {
            AtProblem = $"The further point, {PlanText.Say(place, units.System)}, lies outside every slab of the plan.";
            return default;
        }
    }

    private (SuctionPlace?, CoverageMap?) Propose(SlabCoverage slab, FloorPlan plan, double pitVacuumPa)
    {
        var best = slab.BestSecondPoint(pitVacuumPa, isAllowed: MapCoverage.MayDrill(plan));
        if (best is null) AtProblem = "No place on the slab is far enough from the walls to be proposed.";
        (At, PlacesTried) = (PlanText.Show(best?.Place.At, units.System), best?.PlacesTried);
        return (best?.Place, best?.Map);
    }

    private async Task<double> TargetAsync()
    {
        var usual = await db.Company.Select(c => c.TargetSuctionPa).SingleAsync();
        var read = (Measures.Pressure with { Name = "target", Least = 0.05, Most = 100, UsDecimals = 2 }).Read(Target, units.System);
        TargetProblem = read.Problem;
        return read.Value ?? Math.Clamp(usual, 0.05, 100);
    }

    private Task<PressureFieldTest?> TestAsync() => db.PressureFieldTests.AsNoTracking()
        .Include(t => t.SuctionHoles).Include(t => t.Settings).Include(t => t.TestHoles).ThenInclude(h => h.Readings).AsSplitQuery()
        .Where(t => t.HouseId == HouseId && (Test == null || t.Id == Test)).OrderByDescending(t => t.Day).ThenByDescending(t => t.Id).FirstOrDefaultAsync();
}
