using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;
using MitigationOffice.Web.Pages.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Tests;

/// <summary>A radon test as it is typed: devices out, and later their results.</summary>
public sealed class TestForm
{
    public string? Reason { get; set; }
    public ClockFields Closed { get; set; } = new();
    public ClockFields Started { get; set; } = new();
    public ClockFields Ended { get; set; } = new();
    public bool StayedClosed { get; set; } = true;
    public string? MadeBy { get; set; }
    public string? MadeByNumber { get; set; }
    public string? Notes { get; set; }
    public List<DeviceForm> Devices { get; set; } = [];

    public static TestForm Of(RadonTest t, TimeZoneInfo zone, UnitSystem units) => new()
    {
        Reason = t.Reason.ToString(), Closed = ClockFields.Of(t.ClosedHouseFromUtc, zone), Started = ClockFields.Of(t.StartedAtUtc, zone), Ended = ClockFields.Of(t.EndedAtUtc, zone),
        StayedClosed = t.StayedClosed, MadeBy = t.MadeBy, MadeByNumber = t.MadeByNumber, Notes = t.Notes,
        Devices = [.. t.Devices.OrderBy(d => d.Id).Select(d => DeviceForm.Of(d, units))],
    };

    /// <summary>Writes what was typed onto the test; what cannot be is refused.</summary>
    public void Write(RadonTest test, FormReading read, TimeZoneInfo zone, DateTime fanOnUtc, DateTime nowUtc)
    {
        test.Reason = Enum.TryParse<TestReason>(Reason, out var reason) ? reason : TestReason.PostMitigation;
        test.ClosedHouseFromUtc = Closed.Read(read, nameof(Closed), "closing the house", zone);
        test.StartedAtUtc = Started.Read(read, nameof(Started), "the start", zone, needed: true) ?? test.StartedAtUtc;
        test.EndedAtUtc = Ended.Read(read, nameof(Ended), "the end", zone);
        test.StayedClosed = StayedClosed;
        test.MadeBy = read.Text(MadeBy, nameof(MadeBy), "name of who tests", needed: true, most: 120);
        test.MadeByNumber = read.Text(MadeByNumber, nameof(MadeByNumber), "number", most: 60);
        test.Notes = read.Text(Notes, nameof(Notes), "notes");
        for (var i = 0; i < Devices.Count; i++) Devices[i].Write(test, read, $"Devices[{i}]");
        CheckTimes(test, read, zone, fanOnUtc, nowUtc);
        if (test.Devices.Count == 0) read.Refuse("Devices[0].Room", "Write at least one device with the room it stands in.");
    }

    private static void CheckTimes(RadonTest test, FormReading read, TimeZoneInfo zone, DateTime fanOnUtc, DateTime nowUtc)
    {
        if (test.StartedAtUtc == default) return;
        if (test.StartedAtUtc > nowUtc.AddMinutes(5)) read.Refuse("Started.Day", "The devices cannot have been opened in the time to come. Record them on the day they are opened.");
        else if (test.StartedAtUtc < fanOnUtc && test.Devices.Exists(d => d.Kind != DeviceKind.ContinuousMonitor))
            read.Refuse("Started.Day", $"The test starts before the fan was switched on ({HouseTime.Show(fanOnUtc, zone)}). A test from before the work belongs on sheet 1.");
        if (test.EndedAtUtc is not { } end) return;
        if (end <= test.StartedAtUtc) read.Refuse("Ended.Day", $"The test ends {HouseTime.Show(end, zone)}, not after its start at {HouseTime.Show(test.StartedAtUtc, zone)}.");
        else if (end > nowUtc.AddMinutes(5)) read.Refuse("Ended.Day", "The test has not ended yet. Leave the end empty while the devices are out.");
    }
}
