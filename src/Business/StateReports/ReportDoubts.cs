using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Files;
using MitigationOffice.Business.StateReports.Profiles;

namespace MitigationOffice.Business.StateReports;

/// <param name="Refused">Cannot be reported so; other gaps may be frozen knowingly.</param>
public sealed record ReportGap(int SystemId, int HouseId, string Tag, EnteredAt At, string Words, bool Refused);

/// <summary>What is missing in a report or looks wrong, and where it is entered.</summary>
public static class ReportDoubts
{
    public static IReadOnlyList<ReportGap> Of(ReportTable table, IReadOnlyList<PlannedRow> rows)
    {
        var head = new RowToWrite(null, "", default, "", "", new Dictionary<string, string>(StringComparer.Ordinal));
        var gaps = table.Profile.Fields.Where(f => ReportFields.Find(f.From)?.Of == FieldOf.Run).SelectMany(f => OfField(table, f, head, 0, 0, "The whole report")).ToList();
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            if (row.Kind == RowKind.Withdrawal) continue;
            foreach (var field in table.Profile.Fields)
                if (ReportFields.Find(field.From)?.Of == FieldOf.System) gaps.AddRange(OfField(table, field, table.Rows[i], row.System.Id, row.System.HouseId, row.System.Tag));
            gaps.AddRange(OfRow(row));
        }

        return gaps;
    }

    private static IEnumerable<ReportGap> OfField(ReportTable table, ProfileField field, RowToWrite row, int systemId, int houseId, string tag)
    {
        var (known, value) = (ReportFields.Find(field.From)!, table.Cell(field, row));
        if (value.Length == 0)
        {
            if (field.Required) yield return new(systemId, houseId, tag, known.At, $"the {known.Words} is missing", false);
            yield break;
        }

        if (field.Most > 0 && value.Length > field.Most) yield return new(systemId, houseId, tag, known.At, $"the {known.Words} has {value.Length} characters; this report takes {field.Most}", true);
        if (known.Name == "customer_phone") { if (Phone(value) is { } words) yield return new(systemId, houseId, tag, known.At, words, Csv.LooksComputed(value) && value[0] != '+'); }
        else if (known.Kind == FieldKind.Text && Csv.LooksComputed(value))
            yield return new(systemId, houseId, tag, known.At, $"the {known.Words} begins with “{Mark(value[0])}”, which a spreadsheet would take for a formula: write it otherwise", true);
    }

    /// <summary>Values that are there and do not go together.</summary>
    private static IEnumerable<ReportGap> OfRow(PlannedRow row)
    {
        ReportGap Gap(EnteredAt at, string words) => new(row.System.Id, row.System.HouseId, row.System.Tag, at, words, false);
        var v = row.System.Values;
        var (on, complete, began) = (ReportTable.Day(v["fan_activation_date"]), ReportTable.Day(v["completion_date"]), ReportTable.Day(v["start_date"]));
        if (began > on) yield return Gap(EnteredAt.Job, $"the work began on {HouseTime.Show(began)}, after the fan was switched on ({HouseTime.Show(on)})");
        if (complete < on) yield return Gap(EnteredAt.AsBuilt, $"the work was complete on {HouseTime.Show(complete)}, before the fan was switched on ({HouseTime.Show(on)})");
        if (ReportTable.Number(v["pre_test_pcil"]) is { } was && ReportTable.Number(v["post_test_pcil"]) is { } now && now > was) yield return Gap(EnteredAt.Proof, $"the level after the work ({v["post_test_pcil"]} pCi/L) is above the one before ({v["pre_test_pcil"]})");
        if (v["zip"] is { Length: > 0 } zip && !(zip.Length is 5 or 10 && zip.Replace("-", "", StringComparison.Ordinal).All(char.IsAsciiDigit))) yield return Gap(EnteredAt.Inquiry, $"the ZIP code “{zip}” has not five digits, or nine with a dash");
        if (v["backdraft_check"] == "Failed") yield return Gap(EnteredAt.AsBuilt, "the backdraft check failed");
    }

    private static string? Phone(string value)
    {
        if (value.All(c => char.IsAsciiDigit(c) || " +-().extEXT#,/".Contains(c, StringComparison.Ordinal)) && value[0] is not ('-' or '=')) return null;
        return Csv.LooksComputed(value) ? $"the customer's phone begins with “{Mark(value[0])}”, which a spreadsheet would take for a formula: write it otherwise" : "the customer's phone holds more than a number";
    }

    private static string Mark(char c) => c switch { '\t' => "a tab", '\r' => "a line end", '\0' => "a null", _ => c.ToString() };
}
