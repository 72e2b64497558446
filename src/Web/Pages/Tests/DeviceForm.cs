using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Engineering.Radon;
using MitigationOffice.Web.Setup.Forms;

using DeviceKind = MitigationOffice.Business.Tests.DeviceKind;
using TestDevice = MitigationOffice.Business.Tests.TestDevice;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>One device as it is typed. A form without room, serial number and result is an empty one and is passed over.</summary>
public sealed class DeviceForm
{
    private static readonly Measure Apart = Measures.Length with { Name = "distance", UsUnit = "in", SiUnit = "cm", UsDecimals = 1, SiDecimals = 0, Most = 10 };

    public int Id { get; set; }
    public string? Kind { get; set; }
    public string? Serial { get; set; }
    public string? Room { get; set; }
    public string? Pair { get; set; }
    public string? ApartBy { get; set; }
    public string? CalibratedOn { get; set; }
    public string? Result { get; set; }
    public string? HoursTakenOut { get; set; }
    public bool Remove { get; set; }

    /// <summary>The result computed from the device's kept file; it is not typed.</summary>
    public string? Computed { get; set; }

    public bool IsEmpty => string.IsNullOrWhiteSpace(Room) && string.IsNullOrWhiteSpace(Serial) && string.IsNullOrWhiteSpace(Result);

    public static string ApartUnit(UnitSystem units) => Apart.UnitIn(units);

    public static DeviceForm Of(TestDevice d, UnitSystem units) => new()
    {
        Id = d.Id, Kind = d.Kind.ToString(), Serial = d.Serial, Room = d.Room, Pair = d.Pair, ApartBy = Apart.Number(d.ApartM, units),
        CalibratedOn = TypedNumbers.Plain(d.CalibratedOn), Result = TypedNumbers.Plain(d.PCiL), HoursTakenOut = d.HoursTakenOut == 0 ? "" : TypedNumbers.Plain((decimal)d.HoursTakenOut),
        Computed = d.Monitor is null ? null : d.PCiL is { } average ? RadonConcentration.FromPciPerL(average).Display() : "none",
    };

    /// <summary>What is computed is read again after a refusal, never taken from the form.</summary>
    public void Recall(RadonTest? test) => Computed = test?.Devices.Find(d => d.Id == Id && d.Monitor is not null) is { } kept ? Of(kept, UnitSystem.US).Computed : null;

    public void Write(RadonTest test, FormReading read, string at)
    {
        var device = test.Devices.Find(d => d.Id == Id && Id > 0);
        if (Remove || (IsEmpty && device is null))
        {
            if (device is not null) test.Devices.Remove(device);
            return;
        }

        if (device is null) test.Devices.Add(device = new TestDevice { Room = "" });
        if (device.Monitor is not null && Instrument.KeyOf(device.Serial) != Instrument.KeyOf(Serial))
            read.Refuse($"{at}.{nameof(Serial)}", $"The kept file belongs to {(device.Serial.Length == 0 ? "the device without a serial number" : device.Serial)}. Leave the serial number, or remove this device and add the other.");
        device.Kind = device.Monitor is not null ? DeviceKind.ContinuousMonitor : Enum.TryParse<DeviceKind>(Kind, out var kind) ? kind : DeviceKind.Charcoal;
        device.Room = read.Text(Room, $"{at}.{nameof(Room)}", "room the device stands in", needed: true, most: 100);
        device.Serial = read.Text(Serial, $"{at}.{nameof(Serial)}", "serial number", most: 60);
        device.Pair = read.Text(Pair, $"{at}.{nameof(Pair)}", "pair", most: 20);
        device.ApartM = read.Measure(Apart, ApartBy, $"{at}.{nameof(ApartBy)}");
        device.CalibratedOn = read.Day(CalibratedOn, $"{at}.{nameof(CalibratedOn)}", "day of calibration");
        if (device.Monitor is not null) return;
        device.PCiL = read.Number(Result, $"{at}.{nameof(Result)}", "result in pCi/L", 0m, 100_000m);
        device.HoursTakenOut = read.Whole(HoursTakenOut, $"{at}.{nameof(HoursTakenOut)}", "number of hours taken out", 0, 10_000) ?? 0;
    }
}
