using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A day and a clock time at the house as they are typed; on the day the clocks go back, which of the two hours.</summary>
public sealed class ClockFields
{
    public string? Day { get; set; }
    public string? Time { get; set; }
    public string? Pass { get; set; }

    /// <summary>True when the form must ask which of two equal clock times is meant.</summary>
    public bool AskPass => Pass is not null;

    public static readonly (string Value, string Words)[] Passes =
        [("", "Choose"), (nameof(HourPass.First), "the first, before the clocks went back"), (nameof(HourPass.Second), "the second, after it")];

    public bool IsEmpty => string.IsNullOrWhiteSpace(Day) && string.IsNullOrWhiteSpace(Time);

    public static ClockFields Of(DateTime? utc, TimeZoneInfo zone)
    {
        if (utc is not { } instant) return new();
        var (day, time, pass) = HouseClock.Of(instant, zone);
        return new() { Day = TypedNumbers.Plain(day), Time = time.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture), Pass = pass == HourPass.NotSaid ? null : pass.ToString() };
    }

    /// <summary>The instant, or null with its refusal; null without one where nothing was typed and nothing is needed.</summary>
    public DateTime? Read(FormReading read, string field, string name, TimeZoneInfo zone, bool needed = false)
    {
        if (IsEmpty && !needed) return null;
        var day = read.Day(Day, $"{field}.{nameof(Day)}", $"day of {name}", needed: true);
        var time = read.Time(Time, $"{field}.{nameof(Time)}", $"time of {name}", needed: true);
        if (day is not { } d || time is not { } t) return null;
        var pass = Enum.TryParse<HourPass>(Pass, out var said) ? said : HourPass.NotSaid;
        var reading = HouseClock.Read(d, t, zone, pass);
        if (reading.AskPass) Pass = "";
        if (reading.Problem is { } problem) read.Refuse($"{field}.{(reading.AskPass ? nameof(Pass) : nameof(Time))}", problem);
        return reading.Utc;
    }
}
