using System.Globalization;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports.Files;

/// <summary>A row as it goes into the files.</summary>
/// <param name="Kind">Null on the one row of a report of no work.</param>
public sealed record RowToWrite(RowKind? Kind, string EventKey, DateOnly Day, string Amends, string Changed, ReportValues Values)
{
    public static RowToWrite Of(ReportEntry e) => new(e.Kind, e.EventKey, e.Day, e.Amends, e.Changed, RowText.Read(e.RowJson));
}

/// <summary>A report as rows of cells, in the order and the forms of its profile. The same for every file.</summary>
public sealed class ReportTable(ReportProfile profile, ReportPeriod period, IReadOnlyDictionary<string, string> head, IReadOnlyList<RowToWrite> rows)
{
    public ReportProfile Profile => profile;
    public ReportPeriod Period => period;
    public IReadOnlyDictionary<string, string> Head => head;
    public IReadOnlyList<RowToWrite> Rows => rows;

    /// <summary>What states of its houses want kept private, where the profile is not of that state.</summary>
    public IReadOnlyList<string> AlsoPrivate { get; init; } = [];
    public IReadOnlyList<string> Columns { get; } = [.. profile.Fields.Select(f => f.Name)];

    /// <summary>The rows of the files; a report of no work is one row where the profile has a column to say so.</summary>
    public IEnumerable<RowToWrite> Written => rows.Count > 0 || profile.Fields.All(f => f.From != "no_work") ? rows : [new(null, "", default, "", "", new ReportValues())];

    /// <summary>A cell as the profile writes it.</summary>
    public string Cell(ProfileField field, RowToWrite row)
    {
        var raw = Raw(field, row);
        if (field.Map.Count > 0 && field.Map.TryGetValue(raw, out var mapped)) return mapped;
        if (field.Format.Length == 0 || raw.Length == 0) return raw;
        return field.Known switch
        {
            { Kind: FieldKind.Day } when Day(raw) is { } day => day.ToString(field.Format, CultureInfo.InvariantCulture),
            { Kind: FieldKind.Number } when Number(raw) is { } number => Rounded(number, field.Format),
            _ => raw,
        };
    }

    /// <summary>The value as the office keeps it, before the profile's words and forms.</summary>
    public string Raw(ProfileField field, RowToWrite row) => field.Known is not { } known ? field.Value : known.Of switch
    {
        FieldOf.Run => head.GetValueOrDefault(field.From, ""),
        FieldOf.Row => OfRow(field.From, row),
        _ => row.Values[field.Place],
    };

    public static DateOnly? Day(string raw) => DateOnly.TryParseExact(raw, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    public static decimal? Number(string raw) => decimal.TryParse(raw, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number : null;

    private string OfRow(string name, RowToWrite row) => row.Kind is not { } kind ? "" : name switch
    {
        "row_kind" => kind.ToString().ToLowerInvariant(),
        "counted_as" => row.EventKey.Split('-')[0],
        "late_from_period" => kind != RowKind.Late ? "" : period.Kind == PeriodKind.Days ? row.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : ReportPeriod.Of(period.Kind, row.Day).Name,
        "amends" => row.Amends,
        "changed" => row.Changed,
        _ => "",
    };

    private static string Rounded(decimal number, string format) =>
        Math.Round(number, format.Length > 2 ? format.Length - 2 : 0, MidpointRounding.AwayFromZero).ToString(format, CultureInfo.InvariantCulture);
}
