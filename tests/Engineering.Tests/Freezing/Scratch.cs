using MitigationOffice.Engineering.Freezing;
using MitigationOffice.Engineering.Freezing.Weather;
using Xunit.Abstractions;
namespace MitigationOffice.Engineering.Tests.Freezing;
public class Scratch(ITestOutputHelper o)
{
    [Fact]
    public void Look()
    {
        var run = new OutdoorRun { BoreM = .10226, WallM = .00602, FlowM3PerS = 22 / 2118.88, Pieces = [new RunPiece { LengthM = 16 * .3048 }], FanBeforeRunW = 20 };
        var input = new FreezeInput { Run = run, DesignC = -22, JanuaryMeanC = -8, System = new SuctionSystem { Curve = [new(0, 400), new(0.005, 380), new(0.0104, 340), new(.03, 150)], OpenGaugePa = 300 } };
        var sw = System.Diagnostics.Stopwatch.StartNew();
        FreezeForecast.Compute(input);
        o.WriteLine($"first {sw.ElapsedMilliseconds}"); sw.Restart();
        var r = FreezeForecast.Compute(input);
        o.WriteLine($"all {sw.ElapsedMilliseconds}"); sw.Restart();
        r = FreezeForecast.Compute(input with { Trials = 0 });
        o.WriteLine($"no trials {sw.Elapsed.TotalMilliseconds}");
        r = FreezeForecast.Compute(input);
        o.WriteLine(r.Conclusion); foreach (var w in r.Warnings.Concat(r.Assumptions)) o.WriteLine(w);
        o.WriteLine($"{r.AtRisk} {r.Cable} {r.Insulation} {r.Bypass}");
        foreach (var s in r.AtDesign.Stations) o.WriteLine($"{s.DistanceM:0.00} air {s.AirC:0.00} wall {s.WallC:0.00} cond {s.CondensateKgPerDay:0.000} frost {s.FrostKgPerDay:0.000}");
        var p = r.AtDesign;
        o.WriteLine($"in {p.WaterInKgPerDay:0.00} vap {p.VapourOutKgPerDay:0.00} fog {p.FogOutKgPerDay:0.00} cond {p.CondensateKgPerDay:0.00} frost {p.FrostKgPerDay:0.00} heat {p.HeatLostW:0.000} {p.HeatGivenW:0.000} entry {p.EntryC:0.0}");
        foreach (var d in r.ColdSpell.Days) o.WriteLine($"{d.ThickestIceM * 1000:0.0} mm mouth {d.MouthIceM * 1000:0.0} open {d.NarrowestOpenShare:0.00} frost {d.FrostKg:0.00} gauge {d.GaugePa:0}");
        foreach (var d in r.Winter.Days.Where(d => d.ThickestIceM > 0)) o.WriteLine($"{d.Day:MM-dd} {d.MinC:0.0} {d.MaxC:0.0} {d.ThickestIceM * 1000:0.0} mm open {d.NarrowestOpenShare:0.00} frost {d.FrostKg:0.00} drained {d.DrainedKg:0.00}");
        var shortRun = run with { Pieces = [new RunPiece { LengthM = 1.2 }], FlowM3PerS = 0.012 };
        var s2 = FreezeForecast.Compute(input with { System = null, Run = shortRun, DesignC = -28.9, ColdSpellSwingK = 19.5, ColdSpellDays = 5 });
        foreach (var d in s2.ColdSpell.Days) o.WriteLine($"short {d.ThickestIceM * 1000:0.0} mm mouth {d.MouthIceM * 1000:0.0}");
        o.WriteLine(string.Join(" ", s2.ColdSpell.IceAtEndM.Select(x => $"{x * 1000:0.0}")));
    }
}
