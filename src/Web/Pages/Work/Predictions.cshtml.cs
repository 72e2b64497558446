using System.Globalization;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Setup;
using MitigationOffice.Web.Setup.Lists;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>What was foreseen and what was measured, over all started systems; the owner may take the difference as a correction.</summary>
[Authorize(SignInSetup.OfficeWork)]
public sealed class PredictionsModel(OfficeDb db, UnitChoice units, Actor actor, TimeProvider clock) : PageModel
{
    public const int MostRows = 200;

    public IReadOnlyList<ForeseenAndMeasured> Compared { get; private set; } = [];
    public IReadOnlyList<string> LeftOut { get; private set; } = [];
    public IReadOnlyList<Spread> Spreads { get; private set; } = [];
    public IReadOnlyList<OwnCorrection> On { get; private set; } = [];
    public ForeseenNumber? RefusedFor { get; private set; }
    public string? Reason { get; private set; }

    public Task OnGetAsync() => ShowAsync();

    public async Task<IActionResult> OnGetCsvAsync()
    {
        await ShowAsync();
        return CsvAnswer.Of("foreseen-and-measured.csv", ["House", "Day", "Number", "Hole", "Foreseen", "Measured", "Unit", "Measured over foreseen"],
            Compared.Select(c => (IReadOnlyList<string>)[c.House, TypedNumbers.Plain(c.On), Setup.Forms.Words.Of(c.Of), c.Where, Plain(c.Foreseen, 2), Plain(c.Measured, 2), c.Of == ForeseenNumber.Watts ? "W" : "Pa", Plain(c.Ratio, 3)]));
    }

    public async Task<IActionResult> OnPostOnAsync(ForeseenNumber of, string? reason)
    {
        if (!User.IsInRole("Owner")) return Forbid();
        await ShowAsync();
        if (Spreads.FirstOrDefault(s => s.Of == of) is not { } spread) return NotFound();
        var why = (reason ?? "").Trim();
        if (why.Length <= 500 && await CorrectForeseen.SwitchOnAsync(db, spread, why, actor.Name, clock.GetUtcNow().UtcDateTime) is not null) return RedirectToPage();
        (RefusedFor, Reason) = (of, reason);
        return Page();
    }

    public async Task<IActionResult> OnPostOffAsync(ForeseenNumber of)
    {
        if (!User.IsInRole("Owner")) return Forbid();
        await CorrectForeseen.SwitchOffAsync(db, of, actor.Name, clock.GetUtcNow().UtcDateTime);
        return RedirectToPage();
    }

    public string Show(ForeseenNumber of, double value) => of switch
    {
        ForeseenNumber.StartUpSuction => units.Show(Measures.GaugePressure, value),
        ForeseenNumber.HoleSuction => units.Show(Measures.Pressure, value),
        _ => units.Show(Measures.Power, value),
    };

    public static string Times(double ratio) => "× " + Plain(ratio, 2);

    private static string Plain(double value, int decimals) => Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString("F" + decimals, CultureInfo.InvariantCulture);

    private async Task ShowAsync()
    {
        (Compared, LeftOut) = await LearnFromJobs.LoadAsync(db);
        Spreads = [.. Enum.GetValues<ForeseenNumber>().Select(of => Spread.From(of, Compared)).OfType<Spread>()];
        On = await CorrectForeseen.OnAsync(db);
    }
}
