using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Business.Houses;

/// <summary>Reads a daily weather record for a house, or says in words why it cannot be used. A refused file changes nothing.</summary>
public static class TakeClimate
{
    /// <summary>Some 160 years; the longest stations have fewer.</summary>
    public const int MostLines = 60_000;

    /// <summary>The latest winters tell of the weather to come; more would only make the page slow.</summary>
    public const int MostWinters = 10;

    private const double MostLeftOut = 0.05;

    public static (DailyRecord? Record, string? Refusal) Read(string? text, RecordUnit unit)
    {
        if (string.IsNullOrWhiteSpace(text)) return (null, "Choose a file or paste its lines.");
        if (text.Contains('\0', StringComparison.Ordinal)) return (null, "This is no text file. A CSV is needed whose first line names DATE, TMIN and TMAX; a packed or spreadsheet file must be saved as CSV first.");
        var lines = text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
        if (lines.Length > MostLines)
            return (null, Say($"The file has {lines.Length:#,##0} lines; at most {MostLines:#,##0} are read. Cut it to the last {MostWinters} years: no more winters are used."));
        try
        {
            var record = DailyRecordReader.Read(lines, unit);
            if (Refusal(record, lines.Length - 1, unit) is { } why) return (null, why);
            return (LastWinters(record), null);
        }
        catch (FormatException e)
        {
            return (null, e.Message);
        }
    }

    public static Task StoreAsync(OfficeDb db, int houseId, DailyRecord record, string station, string fileName, RecordUnit unit, DateTime nowUtc, string by) => db.WriteAsync(async () =>
    {
        var kept = record.Days.Where(d => d.Day >= record.Winters[0][0].Day && d.Day <= record.Winters[^1][^1].Day).ToList();
        var days = string.Join('\n', kept.Select(d => Say($"{d.Day:yyyy-MM-dd},{d.MinC:0.##},{d.MaxC:0.##}")));
        var row = await db.Climates.AsTracking().FirstOrDefaultAsync(c => c.HouseId == houseId);
        if (row is null) db.Climates.Add(row = new HouseClimate { HouseId = houseId, FileName = "", Unit = "", Days = "", DaysSha256 = "", ReadBy = "" });
        (row.Station, row.FileName, row.Unit, row.ReadAtUtc, row.ReadBy, row.SetAside) = (station, fileName, WordsOf(unit), nowUtc, by, false);
        (row.FirstDay, row.LastDay, row.Winters, row.FilledDays) = (kept[0].Day, kept[^1].Day, record.Winters.Count, record.FilledDays);
        (row.Problems, row.Days, row.DaysSha256) = (string.Join('\n', record.Problems), days, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(days))));
        await db.SaveChangesAsync();
    });

    public static string WordsOf(RecordUnit unit) => unit switch
    {
        RecordUnit.TenthsOfCelsius => "tenths of °C",
        RecordUnit.Celsius => "°C",
        _ => "°F",
    };

    private static string? Refusal(DailyRecord record, int lines, RecordUnit unit)
    {
        var read = record.Days.Count - record.FilledDays;
        var first = string.Join(' ', record.Problems.Take(3));
        if (read < lines * (1 - MostLeftOut) && record.Winters.Count == 0)
            return Say($"Of {lines:#,##0} lines {Math.Max(0, lines - read):#,##0} cannot be used in {WordsOf(unit)}, and no whole winter is left. {first}");
        var absurd = read < lines * (1 - MostLeftOut) && record.Problems.Any(p => p.Contains("is the unit right?", StringComparison.Ordinal));
        if (absurd || record.Problems.Any(p => p.Contains("look like whole degrees", StringComparison.Ordinal)) || WrongUnit(record, unit))
            return $"The temperatures make no sense in {WordsOf(unit)}. Choose the unit the file is written in: files from the archive of stations are in tenths of °C, ordered ones in °F or °C as you asked for.";
        return record.Winters.Count == 0
            ? $"The record holds no whole winter. A winter counts with at least {DailyRecordReader.FewestColdSeasonDays} days from November to March and no gap of more than {DailyRecordReader.LongestFilledGapDays} days. {first}"
            : null;
    }

    /// <summary>A year that never gets warm, or a summer no station ever saw: another unit was meant.</summary>
    private static bool WrongUnit(DailyRecord record, RecordUnit unit)
    {
        var (summer, winter) = (Highest(record, 7), Highest(record, 1));
        if (summer is < 6 or > 46) return true;
        if (summer < 15 && summer - winter < 10) return true;
        return unit == RecordUnit.Celsius && record.Days.Count > 0 && record.Days.Average(d => d.MeanC) > 32;
    }

    private static double? Highest(DailyRecord record, int month)
    {
        var days = record.Days.Where(d => d.Day.Month == month).Select(d => d.MaxC).ToList();
        return days.Count >= 15 ? days.Average() : null;
    }

    private static DailyRecord LastWinters(DailyRecord record)
    {
        if (record.Winters.Count <= MostWinters) return record;
        return record with
        {
            Winters = [.. record.Winters.TakeLast(MostWinters)],
            Problems = [Say($"Of {record.Winters.Count} whole winters the last {MostWinters} are used."), .. record.Problems],
        };
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
