using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <param name="System">Null: it is of the whole report.</param>
/// <param name="Field">The office's name of the value.</param>
/// <param name="Refused">Cannot be reported so; other gaps may be frozen knowingly.</param>
public sealed record ReportGap(SystemToReport? System, string Field, string Words, bool Refused)
{
    public string Tag => System?.Tag ?? "The whole report";
}

/// <summary>What is missing in a report or looks wrong, and where it is entered.</summary>
public static class ReportDoubts
{
    public static IReadOnlyList<ReportGap> Of(ReportTable table, IReadOnlyList<PlannedRow> rows)
    {
        var head = new RowToWrite(null, "", default, "", "", new ReportValues());
        var gaps = new List<ReportGap>();
        foreach (var field in table.Profile.Fields.Where(f => f.Known is { Of: FieldOf.Run })) AddField(gaps, table, field, head, null);
        var fields = table.Profile.Fields.Where(f => f.Known is { Of: FieldOf.System }).ToList();
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].Kind == RowKind.Withdrawal) continue;
            foreach (var field in fields) AddField(gaps, table, field, table.Rows[i], rows[i].System);
            gaps.AddRange(OfRow(rows[i]));
        }

        return gaps;
    }

    /// <summary>Once for each value, however many systems lack it.</summary>
    private static readonly Dictionary<ReportField, string> Lacking = ReportFields.All.ToDictionary(f => f, f => $"the {f.Words} is missing");

    private static void AddField(List<ReportGap> gaps, ReportTable table, ProfileField field, RowToWrite row, SystemToReport? system)
    {
        var (known, value) = (field.Known!, table.Cell(field, row));
        if (value.Length == 0)
        {
            if (field.Required) Add(Lacking[known], false);
            return;
        }

        if (field.Most > 0 && value.Length > field.Most) Add($"the {known.Words} has {value.Length} characters; this report takes {field.Most}", true);
        if (known.Name == "customer_phone") { if (Phone(value) is { } words) Add(words, Csv.LooksComputed(value) && value[0] != '+'); }
        else if (known.Kind == FieldKind.Text && Csv.LooksComputed(value))
            Add($"the {known.Words} begins with “{Mark(value[0])}”, which a spreadsheet would take for a formula: write it otherwise", true);

        void Add(string words, bool refused) => gaps.Add(new(system, known.Name, words, refused));
    }

    /// <summary>Values that are there and do not go together.</summary>
    private static IEnumerable<ReportGap> OfRow(PlannedRow row)
    {
        ReportGap Gap(string field, string words) => new(row.System, field, words, false);
        var v = row.System.Values;
        var (on, complete, began) = (ReportTable.Day(v["fan_activation_date"]), ReportTable.Day(v["completion_date"]), ReportTable.Day(v["start_date"]));
        if (began > on) yield return Gap("start_date", $"the work began on {HouseTime.Show(began)}, after the fan was switched on ({HouseTime.Show(on)})");
        if (complete < on) yield return Gap("completion_date", $"the work was complete on {HouseTime.Show(complete)}, before the fan was switched on ({HouseTime.Show(on)})");
        if (ReportTable.Number(v["pre_test_pcil"]) is { } was && ReportTable.Number(v["post_test_pcil"]) is { } now && now > was) yield return Gap("post_test_pcil", $"the level after the work ({v["post_test_pcil"]} pCi/L) is above the one before ({v["pre_test_pcil"]})");
        if (v["zip"] is { Length: > 0 } zip && !(zip.Length is 5 or 10 && zip.Replace("-", "", StringComparison.Ordinal).All(char.IsAsciiDigit))) yield return Gap("zip", $"the ZIP code “{zip}” has not five digits, or nine with a dash");
        if (v["backdraft_check"] == "Failed") yield return Gap("backdraft_check", "the backdraft check failed");
    }

    private static string? Phone(string value)
    {
        if (value.All(c => char.IsAsciiDigit(c) || " +-().extEXT#,/".Contains(c, StringComparison.Ordinal)) && value[0] is not ('-' or '=')) return null;
        return Csv.LooksComputed(value) ? $"the customer's phone begins with “{Mark(value[0])}”, which a spreadsheet would take for a formula: write it otherwise" : "the customer's phone holds more than a number";
    }

    private static string Mark(char c) => c switch { '\t' => "a tab", '\r' => "a line end", '\0' => "a null", _ => c.ToString() };
}
