using System.Globalization;
using System.Text.RegularExpressions;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>Says what is wrong with a profile in the words of its form: where the text has a path, the form has a labelled field.</summary>
public sealed partial class ProfilePlaces(ProfileForm form)
{
    private static readonly Dictionary<string, (string Field, string Label)> Known = new(StringComparer.Ordinal)
    {
        ["code"] = (nameof(ProfileForm.Code), "Code"), ["name"] = (nameof(ProfileForm.Name), "Name"), ["jurisdiction"] = (nameof(ProfileForm.Jurisdiction), "Jurisdiction"), ["state"] = (nameof(ProfileForm.State), "State"),
        ["citation"] = (nameof(ProfileForm.Citation), "Source"), ["read"] = (nameof(ProfileForm.ReadOn), "Read on"), ["notKnown"] = (nameof(ProfileForm.NotKnown), "What is not known"),
        ["period"] = (nameof(ProfileForm.Period), "How often"), ["deadline.rule"] = (nameof(ProfileForm.DeadlineRule), "Due"), ["deadline.days"] = (nameof(ProfileForm.DeadlineDays), "Days until it is due"),
        ["events"] = (nameof(ProfileForm.Activation), "What is counted"), ["fee.cents"] = (nameof(ProfileForm.Fee), "Fee for each system"), ["fee.deadline.rule"] = (nameof(ProfileForm.FeeRule), "Fee due"),
        ["fee.deadline.days"] = (nameof(ProfileForm.FeeDays), "Days until the fee is due"), ["fee.citation"] = (nameof(ProfileForm.FeeCitation), "Source of the fee"),
        ["retention.years"] = (nameof(ProfileForm.Years), "Years records are kept"), ["retention.citation"] = (nameof(ProfileForm.KeepCitation), "Source of the years"),
        ["privacy.words"] = (nameof(ProfileForm.PrivacyWords), "What the rule says"), ["privacy.citation"] = (nameof(ProfileForm.PrivacyCitation), "Source of the privacy rule"),
        ["files"] = (nameof(ProfileForm.Csv), "Files"), ["fields"] = (nameof(ProfileForm.Columns), "Columns"),
    };

    private static readonly Dictionary<string, (string Field, string Label)> OfColumn = new(StringComparer.Ordinal)
    {
        ["name"] = (nameof(ColumnForm.Name), "head"), ["from"] = (nameof(ColumnForm.From), "what it holds"), ["value"] = (nameof(ColumnForm.Value), "text that is always the same"), ["format"] = (nameof(ColumnForm.Format), "written as"),
        ["most"] = (nameof(ColumnForm.Most), "most characters"), ["map"] = (nameof(ColumnForm.Map), "the state's own words"),
    };

    [GeneratedRegex(@"“(?<path>[a-z][A-Za-z]*(\[(?<at>\d+)\])?(\.(?<part>[A-Za-z.]+))?)”", RegexOptions.CultureInvariant)]
    private static partial Regex Path();

    /// <summary>The field it is about, and the words with labels in place of paths.</summary>
    public (string Field, string Words) Of(string problem)
    {
        var field = "";
        var words = Path().Replace(problem, m =>
        {
            if (Find(m) is not { } found) return m.Value;
            if (field.Length == 0) field = found.Field;
            return $"“{found.Label}”";
        });
        return (field.Length > 0 ? field : Twice(problem), words);
    }

    private static (string Field, string Label)? Find(Match m)
    {
        if (!m.Groups["at"].Success) return Known.TryGetValue(m.Groups["path"].Value, out var known) ? known : null;
        var number = int.Parse(m.Groups["at"].Value, CultureInfo.InvariantCulture);
        var row = string.Create(CultureInfo.InvariantCulture, $"{nameof(ProfileForm.Columns)}[{number - 1}]");
        if (!m.Groups["part"].Success) return ($"{row}.{nameof(ColumnForm.From)}", $"Column {number}");
        return OfColumn.TryGetValue(m.Groups["part"].Value, out var part) ? ($"{row}.{part.Field}", $"Column {number}, {part.Label}") : null;
    }

    /// <summary>The later of two columns of one name.</summary>
    private string Twice(string problem)
    {
        var at = form.Columns.FindLastIndex(c => c.Name is { Length: > 0 } name && problem.Contains($"“{name.Trim()}”", StringComparison.OrdinalIgnoreCase));
        return at < 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{nameof(ProfileForm.Columns)}[{at}].{nameof(ColumnForm.Name)}");
    }
}
