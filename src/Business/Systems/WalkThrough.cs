using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>What is shown to the house owner before the crew leaves. Our own words; what belongs into it is common practice, no source,
/// with the duties of a label and a monitor behind it (ANSI/AARST SGM-SF 2017, 8.4.2.1; RMS-LB 2018, 8.2).</summary>
public static class WalkThrough
{
    public sealed record Line(string Code, string Words);

    public static IEnumerable<Line> Of(InstalledSystem s)
    {
        var start = s.StartUpGaugePa is { } pa ? $", and its start-up reading of {Measures.GaugePressure.Show(pa)} marked on it" : "";
        yield return new("gauge", $"Where the gauge is, how to read it{start}.");
        if (s.Components.Exists(c => c.Kind == ComponentKind.Alarm && c.RemovedOn is null)) yield return new("alarm", "The alarm: how it sounds without suction, how it beeps when its battery is low, how the battery is changed.");
        yield return new("switch", "The fan's switch and breaker, and that the fan stays on all year.");
        yield return new("pipe", "The pipe, the fan and the mouth outdoors: not to be opened, cut or blocked; nobody stands under ice.");
        if (s.Components.Exists(c => c.Kind == ComponentKind.HeatCable && c.RemovedOn is null)) yield return new("cable", "The heat cable: its plug, and that it is on in frost.");
        if (s.Components.Exists(c => c.Kind == ComponentKind.SumpLid && c.RemovedOn is null)) yield return new("lid", "The sealed sump lid: put back tight after work on the pump.");
        yield return new("fumes", "Fumes and carbon monoxide: why no heater, fireplace or strong exhaust fan is added without asking, and that a carbon monoxide alarm belongs in the house.");
        yield return new("label", "The label and the tag beside the gauge, and the code that leads to the system's own page.");
        yield return new("test", "The radon test after the work, and a test at least every two years.");
        yield return new("packet", "The packet was handed over.");
    }
}
