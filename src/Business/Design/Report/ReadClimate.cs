using System.Globalization;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Business.Design.Report;

/// <summary>Reads a design file's weather record and refuses one that is at fault.</summary>
public static class ReadClimate
{
    public static DailyRecord? Of(FileClimate? climate)
    {
        if (climate is null) return null;
        var record = Read(climate);
        if (record.Faults.Count > 0 && !climate.AcceptFaults)
        {
            var more = record.Faults.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $" ({record.Faults.Count - 1} more like it.)") : "";
            throw new DesignRefused($"climate: {record.Faults[0]}{more} Mend the record, or write \"acceptFaults\": true to go on without what is at fault.");
        }

        return record.Winters.Count > 0 ? record
            : throw new DesignRefused($"climate: the record holds no whole winter, {DailyRecordReader.FewestColdSeasonDays} days or more from November to March without a gap of more than {DailyRecordReader.LongestFilledGapDays} days.");
    }

    private static DailyRecord Read(FileClimate climate)
    {
        if (climate.Days is null == climate.Csv is null) throw new DesignRefused("climate needs either days or csv, one of them.");
        var lines = climate.Csv?.Split('\n').Select(line => line.TrimEnd('\r')) ?? climate.Days!.Select(Line).Prepend("DATE,TMIN,TMAX");
        try
        {
            return DailyRecordReader.Read(lines, climate.Unit);
        }
        catch (FormatException e)
        {
            throw new DesignRefused("climate.csv: " + e.Message, e);
        }
    }

    private static string Line(FileDay day) => string.Create(CultureInfo.InvariantCulture, $"{day.Date:yyyy-MM-dd},{day.TMin},{day.TMax}");
}
