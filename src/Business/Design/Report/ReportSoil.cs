using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Business.Design.Report;

/// <summary>What the readings say about the ground, as the report keeps it.</summary>
public static class ReportSoil
{
    public static SoilResult Of(FileTest test, PfeFindings ground) => new()
    {
        Conductance = ground.Soil.ConductanceG, Exponent = ground.Soil.Exponent, ExponentAssumed = ground.Soil.ExponentAssumed,
        Settings = [.. test.Settings.Select(s => Setting(s, ground))],
        Holes = [.. ground.Holes.Select(h => new HoleTransfer(h.Label, h.Ratio, h.Low, h.High, test.Holes.FirstOrDefault(x => x.Label == h.Label)?.DistanceM))],
    };

    private static SettingResult Setting(FileSetting s, PfeFindings ground)
    {
        var flow = ground.Flows.FirstOrDefault(f => f.Label == s.Label && f.PitVacuumPa == s.PitVacuumPa);
        return new SettingResult
        {
            Label = s.Label, PitVacuumPa = s.PitVacuumPa, FlowM3PerS = flow?.FlowM3PerS, FlowLowM3PerS = flow?.LowM3PerS, FlowHighM3PerS = flow?.HighM3PerS,
            FlowFrom = flow is null ? "not known" : flow.Measured ? "measured" : $"read off the curve of {s.Fan}",
            Contradiction = ground.Warnings.FirstOrDefault(w => w.StartsWith(s.Label + ":", StringComparison.Ordinal) && (w.Contains(" W were measured", StringComparison.Ordinal) || w.Contains("off this fan", StringComparison.Ordinal))),
        };
    }
}
