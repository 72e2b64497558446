using MitigationOffice.Business.Tests;
using MitigationOffice.Engineering.Radon;
using DeviceKind = MitigationOffice.Business.Tests.DeviceKind;

namespace MitigationOffice.Business.Quality;

/// <summary>A pair of devices side by side, judged.</summary>
/// <param name="Key">Names the point for what was done about it.</param>
/// <param name="Compares">True where one of the two is a continuous monitor.</param>
public sealed record PairPoint(string Key, DateOnly Day, int? HouseId, string Where, string Serials, DeviceKind Kind, bool Compares, decimal First, decimal Second, DuplicateFinding Finding)
{
    public ControlZone Zone => Finding.Zone;
}

/// <summary>A device exposed to a known concentration, judged.</summary>
public sealed record SpikePoint(string Key, int Id, DateOnly Day, string Serial, DeviceKind Kind, decimal Measured, decimal Reference, SpikeFinding Finding);

/// <summary>An unexposed device, judged against its laboratory's lower limit of detection.</summary>
public sealed record BlankPoint(string Key, int Id, DateOnly Day, string Serial, DeviceKind Kind, decimal Shown, decimal Limit, bool NeedsAttention);

/// <summary>What to do about a point outside the limits. Our own words; common practice, no source, where none is named.</summary>
public static class QualityAdvice
{
    public static string Of(PairPoint point) => point.Zone switch
    {
        ControlZone.Warning => "Look for the cause: placing, seals, how they were handled, the laboratory. Put out another pair within the month. Two warnings in a row are treated as one out of control.",
        ControlZone.Control => "Set no more devices of this kind or batch out before the cause is found. Ask the laboratory about both, expose another pair, and look again at the results reported since the last pair within the limits.",
        _ => "",
    };

    public static string Of(SpikePoint point) => point.Finding.Zone switch
    {
        ControlZone.Warning => "Tell the laboratory, and send another spiked device of the same batch.",
        ControlZone.Control => "Stop using the batch, tell the laboratory, and look again at the results it gave since the last good spike.",
        _ => "",
    };

    public static string Of(BlankPoint point) => point.NeedsAttention
        ? "Look at the store and the seals of the batch, and ask the laboratory. Results of the batch near the limit of detection read too high."
        : "";
}
