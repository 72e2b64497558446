using System.Globalization;
using System.Text;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;

namespace MitigationOffice.Business.Tests.Tests;

/// <summary>Made-up monitor files and the tests they belong to.</summary>
public static class MonitorFiles
{
    public static readonly TimeZoneInfo Chicago = HouseTime.Zone("America/Chicago");

    public static DateTime Utc(string text) => DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal | DateTimeStyles.AssumeUniversal);

    /// <summary>Rows an hour apart by the device's clock, begun at an instant.</summary>
    public static string Hourly(DateTime fromUtc, IEnumerable<string> values, Func<DateTime, DateTime> deviceClock, string head = "Time,Radon (pCi/L)", string form = "MM/dd/yyyy HH:mm")
    {
        var text = new StringBuilder(head).Append("\r\n");
        var at = fromUtc;
        foreach (var value in values)
        {
            text.Append(deviceClock(at).ToString(form, CultureInfo.InvariantCulture)).Append(',').Append(value).Append("\r\n");
            at = at.AddHours(1);
        }

        return text.ToString();
    }

    public static DateTime Standard(DateTime utc) => utc + Chicago.BaseUtcOffset;

    public static DateTime Local(DateTime utc) => TimeZoneInfo.ConvertTimeFromUtc(utc, Chicago);

    public static FileReading Read(string text, Func<FileHabit, FileHabit>? how = null, string serial = "")
    {
        var (table, problem) = MonitorTable.Of(text);
        if (table is null) throw new InvalidOperationException(problem);
        var habit = GuessHabit.Of(table, null);
        return ReadMonitorFile.Of(table, how?.Invoke(habit) ?? habit, Chicago, serial);
    }

    public static HoursFinding Judge(FileReading reading, RadonTest test, string fanOnUtc, GapCause gaps = GapCause.NotSaid) =>
        JudgeHours.Of(reading.Hours!, test, gaps, 4, false, Utc(fanOnUtc), Chicago);
}
