using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Tests;

/// <summary>Finds the monitors of a test in the office's register by their serial numbers, and takes the calibration that held on the day.</summary>
public static class MatchInstruments
{
    public static async Task<IReadOnlyList<Refusal>> RunAsync(OfficeDb db, RadonTest test, TimeZoneInfo zone)
    {
        var monitors = test.Devices.Where(d => d.Kind == DeviceKind.ContinuousMonitor && d.Serial.Length > 0).ToList();
        foreach (var device in test.Devices.Except(monitors)) (device.InstrumentId, device.CalibrationDueOn) = (null, null);
        if (monitors.Count == 0) return [];
        var keys = monitors.ConvertAll(d => Instrument.KeyOf(d.Serial));
        var known = await db.Instruments.AsNoTracking().Include(i => i.Calibrations).Where(i => i.Kind == InstrumentKind.ContinuousMonitor && keys.Contains(i.SerialKey)).ToDictionaryAsync(i => i.SerialKey);
        var day = HouseTime.DayOf(test.StartedAtUtc, zone);
        return [.. monitors.Select(d => Match(d, known.GetValueOrDefault(Instrument.KeyOf(d.Serial)), day)).OfType<Refusal>()];
    }

    private static Refusal? Match(TestDevice device, Instrument? instrument, DateOnly day)
    {
        (device.InstrumentId, device.CalibrationDueOn) = (instrument?.Id, null);
        if (instrument?.OnDay(day) is not { } calibration) return null;
        if (device.CalibratedOn is { } typed && typed != calibration.DoneOn)
            return new(device.Serial, $"The register of instruments says {instrument.Serial} was calibrated on {HouseTime.Show(calibration.DoneOn)}; you wrote {HouseTime.Show(typed)}. Empty this field to take the register’s day, or correct the register.");
        (device.CalibratedOn, device.CalibrationDueOn) = (calibration.DoneOn, calibration.DueOn);
        return null;
    }

    /// <summary>What the verdict will say of the calibrations, told while the devices are still out.</summary>
    public static IEnumerable<string> Warnings(RadonTest test, TimeZoneInfo zone)
    {
        var day = HouseTime.DayOf(test.StartedAtUtc, zone);
        foreach (var d in test.Devices.Where(d => d.Kind == DeviceKind.ContinuousMonitor))
        {
            var name = d.Serial.Length == 0 ? $"The monitor in {d.Room}" : d.Serial;
            var due = d.CalibrationDueOn ?? d.CalibratedOn?.AddMonths(Calibration.UsualMonths);
            if (d.CalibratedOn is null) yield return $"{name}: the day of its calibration is not on record. It belongs on the report; without it the test will not be valid.";
            else if (day > due) yield return $"{name}: its calibration ran out on {HouseTime.Show(due)}, before this test began. The test will not be valid; set out a calibrated device.";
            else if (d.CalibratedOn > day) yield return $"{name}: it was calibrated only on {HouseTime.Show(d.CalibratedOn)}, after this test began. The test will not be valid.";
        }
    }
}
