using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

/// <summary>What is to be said of the instrument a reading was taken with.</summary>
/// <param name="InDoubt">Its calibration had run out, or none is on record: said as a caution wherever the reading counts.</param>
public sealed record ReadWith(string Words, bool InDoubt)
{
    private const int ShortestSerial = 3;

    /// <summary>The instruments a pressure may be read with, with their calibrations.</summary>
    public static Task<List<Instrument>> InstrumentsAsync(OfficeDb db) =>
        db.Instruments.AsNoTracking().Include(i => i.Calibrations).Where(i => i.Kind == InstrumentKind.Manometer || i.Kind == InstrumentKind.Other).OrderBy(i => i.Serial).AsSingleQuery().ToListAsync();

    /// <summary>The instrument that typed words name: the one whose serial number they hold, the longest where several do.</summary>
    public static Instrument? Named(IEnumerable<Instrument> instruments, string typed)
    {
        var key = Instrument.KeyOf(typed);
        return instruments.Where(i => i.SerialKey.Length >= ShortestSerial && key.Contains(i.SerialKey, StringComparison.Ordinal)).MaxBy(i => i.SerialKey.Length);
    }

    /// <summary>Null where nothing is written down of the instrument.</summary>
    public static ReadWith? Of(IReadOnlyCollection<Instrument> instruments, int? instrumentId, string typed, DateOnly day)
    {
        var known = instruments.FirstOrDefault(i => i.Id == instrumentId) ?? Named(instruments, typed);
        if (known is null) return typed.Length == 0 ? null : new($"{typed}; not in the register of instruments, so its calibration is not known", false);
        var name = NameOf(known);
        if (known.OnDay(day) is not { } calibration) return new($"{name}; no calibration from before {HouseTime.Show(day)} is on record", true);
        if (calibration.DueOn is not { } due) return new($"{name}, calibrated {HouseTime.Show(calibration.DoneOn)}", false);
        return due < day
            ? new($"{name}; its calibration ran out on {HouseTime.Show(due)}, before this reading of {HouseTime.Show(day)}", true)
            : new($"{name}, calibrated {HouseTime.Show(calibration.DoneOn)}, good until {HouseTime.Show(due)}", false);
    }

    public static string NameOf(Instrument i) => i.Model.Length == 0 ? i.Serial : $"{i.Model}, {i.Serial}";
}
