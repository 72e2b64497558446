using System.Text.Json;
using System.Text.RegularExpressions;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>A profile from its text; every problem in words, by the name of what is wrong.</summary>
public static partial class ReadProfile
{
    public const int MostCharacters = 200_000;
    private const int MostFields = 200;
    private static readonly JsonDocumentOptions Options = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = 12 };
    private static readonly string[] Taken = ["profiles", "records", "new", "proof"];

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$", RegexOptions.CultureInvariant)]
    private static partial Regex CodeForm();

    /// <summary>The profile; null where there are problems.</summary>
    public static (ReportProfile? Profile, IReadOnlyList<string> Problems) Of(string text)
    {
        if (string.IsNullOrWhiteSpace(text)) return (null, ["Paste a profile, or begin with a copy of one of the profiles that came with the program."]);
        if (text.Length > MostCharacters) return (null, [$"A profile has at most {MostCharacters} characters."]);
        try
        {
            using var document = JsonDocument.Parse(text, Options);
            var problems = new List<string>();
            var profile = Read(document.RootElement, problems);
            return problems.Count == 0 ? (profile, []) : (null, problems);
        }
        catch (JsonException e)
        {
            return (null, [$"This is not JSON: in line {e.LineNumber + 1}, at character {e.BytePositionInLine + 1}, something is missing or too much. Look for a comma, a quotation mark or a bracket."]);
        }
    }

    private static ReportProfile Read(JsonElement root, List<string> problems)
    {
        var read = new JsonReading(root, "", problems);
        var period = read.Word("period", PeriodKind.Month);
        var profile = new ReportProfile
        {
            Code = Code(read),
            Name = read.Text("name", needed: true, most: 80),
            Jurisdiction = read.Text("jurisdiction", most: 80),
            State = State(read),
            Citation = read.Text("citation"),
            Read = read.Day("read"),
            NotKnown = read.Texts("notKnown"),
            Period = period,
            Deadline = Deadline(read, "deadline", problems),
            Events = read.Words("events", [CountedEvent.Activation]),
            NilReport = read.YesNo("nilReport", true),
            Fee = Fee(read, problems),
            Retention = Keep(read, problems),
            Privacy = Privacy(read, problems),
            Files = read.Words("files", [FileKind.Csv, FileKind.Xlsx, FileKind.Pdf]),
            Fields = Fields(read, period, problems),
        };
        read.Close();
        if (profile.Deadline.Kind == DeadlineKind.BusinessDaysAfterQuarter && period is not (PeriodKind.Quarter or PeriodKind.None)) problems.Add("“deadline.rule” counts from a quarter; then “period” must be quarter.");
        return profile;
    }

    private static string Code(JsonReading read)
    {
        var code = read.Text("code", needed: true, most: 40);
        if (code.Length > 0 && (!CodeForm().IsMatch(code) || Taken.Contains(code))) read.Refuse($"“code” must be small letters, digits and dashes, for example my-state, and none of {string.Join(", ", Taken)}; not “{code}”.");
        return code;
    }

    private static string State(JsonReading read)
    {
        var state = read.Text("state", most: 20).ToUpperInvariant();
        if (state.Length > 0 && (state.Length != 2 || !state.All(char.IsAsciiLetter))) read.Refuse($"“state” must be the two letters of a state, or empty for every house; not “{state}”.");
        return state;
    }

    private static DeadlineRule Deadline(JsonReading outer, string name, List<string> problems)
    {
        if (outer.Take(name) is not { } element) return DeadlineRule.None;
        var read = new JsonReading(element, outer.Named(name).Trim('“', '”'), problems);
        var rule = new DeadlineRule(read.Word("rule", DeadlineKind.None), read.Whole("days", 0, 1000));
        if (rule.Kind != DeadlineKind.None && !read.Has("days")) read.Refuse($"{read.Named("days")} is missing.");
        if (rule is { Kind: DeadlineKind.BusinessDaysAfterPeriod or DeadlineKind.BusinessDaysAfterQuarter, Days: < 1 }) read.Refuse($"{read.Named("days")} must be 1 or more business days.");
        read.Close();
        return rule;
    }

    private static FeeRule Fee(JsonReading outer, List<string> problems)
    {
        if (outer.Take("fee") is not { } element) return new(0, DeadlineRule.None, "");
        var read = new JsonReading(element, "fee", problems);
        var fee = new FeeRule(read.Whole("cents", 0, 1_000_000_00), Deadline(read, "deadline", problems), read.Text("citation"));
        read.Close();
        return fee;
    }

    private static KeepRule Keep(JsonReading outer, List<string> problems)
    {
        if (outer.Take("retention") is not { } element) return new(0, false, false, "");
        var read = new JsonReading(element, "retention", problems);
        var keep = new KeepRule(read.Whole("years", 0, 100), read.YesNo("orLongerWarranty", false), read.YesNo("forEver", false), read.Text("citation"));
        read.Close();
        return keep;
    }

    private static PrivacyRule Privacy(JsonReading outer, List<string> problems)
    {
        if (outer.Take("privacy") is not { } element) return new(false, false, "", "");
        var read = new JsonReading(element, "privacy", problems);
        var privacy = new PrivacyRule(read.YesNo("addressesPrivate", false), read.YesNo("ownerOnly", false), read.Text("words"), read.Text("citation"));
        read.Close();
        return privacy;
    }

    private static IReadOnlyList<ProfileField> Fields(JsonReading outer, PeriodKind period, List<string> problems)
    {
        if (outer.Take("fields") is not { } element)
        {
            if (period != PeriodKind.None) problems.Add("“fields” is missing: write \"all\" for the general layout, or a list of fields.");
            return [];
        }

        if (element.ValueKind == JsonValueKind.String && element.GetString() == "all") return ReportFields.General;
        if (period == PeriodKind.None && element.ValueKind == JsonValueKind.Array && element.GetArrayLength() == 0) return [];
        if (element.ValueKind != JsonValueKind.Array || element.GetArrayLength() is 0 or > MostFields)
        {
            problems.Add($"“fields” must be \"all\" or a list of 1 to {MostFields} fields.");
            return [];
        }

        var fields = element.EnumerateArray().Select((f, i) => ReadField.Of(f, $"fields[{i + 1}]", problems)).ToList();
        foreach (var twice in fields.Where(f => f.Name.Length > 0).GroupBy(f => f.Name, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1)) problems.Add($"Two fields have the name “{twice.Key}”; a file's columns need different names.");
        return fields;
    }
}
