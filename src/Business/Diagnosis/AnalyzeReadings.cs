using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Diagnosis;

/// <summary>What a day's readings say about the ground, or why they say nothing yet.</summary>
public sealed record ReadingFindings(PfeFindings? Ground, string? WhyNone);

/// <summary>Has the engine read a PFE test: flows, soil resistance, the share of suction that reaches each hole.</summary>
public static class AnalyzeReadings
{
    public static async Task<ReadingFindings> RunAsync(OfficeDb db, PressureFieldTest test, double? elevationM)
    {
        var company = await db.Company.AsNoTracking().Select(c => new { c.ElevationM, c.MeanAnnualC }).SingleAsync();
        var ids = test.Settings.Select(s => s.FanId).ToList();
        var fans = await db.Fans.AsNoTracking().Include(f => f.Points).Where(f => ids.Contains(f.Id)).AsSingleQuery().ToListAsync();
        try
        {
            var curves = fans.ToDictionary(f => f.Id, f => new FanCurve(f.Points.Select(p => new FanPoint(p.FlowM3PerS, p.StaticPressurePa, p.Watts))));
            return new(PfeAnalysis.Of(Test(test, curves), MoistAir.At(company.MeanAnnualC, 1, elevationM ?? company.ElevationM).DensityKgPerM3), null);
        }
        catch (ArgumentException e)
        {
            return new(null, e.Message.Split(" (Parameter", 2)[0]);
        }
    }

    private static PfeTest Test(PressureFieldTest test, Dictionary<int, FanCurve> curves)
    {
        var settings = test.Settings.OrderBy(s => s.Position).ToList();
        return new(
            [.. settings.Select(s => new PfeSetting(s.Label, s.PitVacuumPa, s.FlowM3PerS, s.Watts, s.FanId is { } id ? curves.GetValueOrDefault(id) : null))],
            [.. test.TestHoles.OrderBy(h => h.Position).Select(h => new PfeHole(h.Label, test.FromPitM(h), h.FanOffPa, [.. settings.Select(s => h.Readings.Find(r => r.FanSettingId == s.Id)?.FanOnPa)]))],
            test.OutdoorC, test.IndoorC);
    }
}
