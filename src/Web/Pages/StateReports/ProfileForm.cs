using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.StateReports;

/// <summary>A profile as it is typed, field by field. What is typed becomes the profile's text and is read as any text is, so that the
/// form and the text are held to the same rules.</summary>
public sealed class ProfileForm
{
    /// <summary>Values a posted form may have: so many columns of ten each, and the rest.</summary>
    public const int MostValues = 10 * MostColumns + 200;
    private const int MostColumns = 200;

    public string? Code { get; set; }
    public string? Name { get; set; }
    public string? Jurisdiction { get; set; }
    public string? State { get; set; }
    public string? Citation { get; set; }
    public string? ReadOn { get; set; }
    public string? NotKnown { get; set; }
    public string? Period { get; set; } = "month";
    public string? DeadlineRule { get; set; } = "none";
    public string? DeadlineDays { get; set; }
    public bool Activation { get; set; }
    public bool Completion { get; set; }
    public bool Alteration { get; set; }
    public bool Test { get; set; }
    public bool NilReport { get; set; }
    public string? Fee { get; set; }
    public string? FeeRule { get; set; } = "none";
    public string? FeeDays { get; set; }
    public string? FeeCitation { get; set; }
    public string? Years { get; set; }
    public bool OrLongerWarranty { get; set; }
    public bool ForEver { get; set; }
    public string? KeepCitation { get; set; }
    public bool AddressesPrivate { get; set; }
    public bool OwnerOnly { get; set; }
    public string? PrivacyWords { get; set; }
    public string? PrivacyCitation { get; set; }
    public bool Csv { get; set; }
    public bool Xlsx { get; set; }
    public bool Pdf { get; set; }
    public List<ColumnForm> Columns { get; set; } = [];

    public static ProfileForm Of(ReportProfile p) => new()
    {
        Code = p.Code, Name = p.Name, Jurisdiction = p.Jurisdiction, State = p.State, Citation = p.Citation, ReadOn = TypedNumbers.Plain(p.Read), NotKnown = string.Join('\n', p.NotKnown),
        Period = JsonWord.Of(p.Period), DeadlineRule = JsonWord.Of(p.Deadline.Kind), DeadlineDays = Days(p.Deadline),
        Activation = p.Events.Contains(CountedEvent.Activation), Completion = p.Events.Contains(CountedEvent.Completion), Alteration = p.Events.Contains(CountedEvent.Alteration), Test = p.Events.Contains(CountedEvent.Test),
        NilReport = p.NilReport, Fee = p.Fee.Cents > 0 ? TypedNumbers.Plain(new Money(p.Fee.Cents)) : "", FeeRule = JsonWord.Of(p.Fee.Deadline.Kind), FeeDays = Days(p.Fee.Deadline), FeeCitation = p.Fee.Citation,
        Years = p.Retention.Years > 0 ? Whole(p.Retention.Years) : "", OrLongerWarranty = p.Retention.OrLongerWarranty, ForEver = p.Retention.ForEver, KeepCitation = p.Retention.Citation,
        AddressesPrivate = p.Privacy.AddressesPrivate, OwnerOnly = p.Privacy.OwnerOnly, PrivacyWords = p.Privacy.Words, PrivacyCitation = p.Privacy.Citation,
        Csv = p.Files.Contains(FileKind.Csv), Xlsx = p.Files.Contains(FileKind.Xlsx), Pdf = p.Files.Contains(FileKind.Pdf),
        Columns = [.. p.Fields.Select(ColumnForm.Of)],
    };

    /// <summary>The profile, or what is wrong at the field where it is; null then.</summary>
    public ReportProfile? Read(ModelStateDictionary state, string prefix)
    {
        var read = new FormReading(state, prefix, UnitSystem.US);
        var text = Text(read);
        if (Columns.Count == 0 && Trimmed(Period) != JsonWord.Of(PeriodKind.None)) read.Refuse(nameof(Columns), "A report needs a column: add one, or say that nothing is reported.");
        if (!state.IsValid) return null;
        var (profile, problems) = ReadProfile.Of(text);
        var places = new ProfilePlaces(this);
        foreach (var problem in problems)
        {
            var (field, words) = places.Of(problem);
            read.Refuse(field, words);
        }

        return profile;
    }

    /// <summary>Moves, adds or takes out columns; nothing is saved and nothing typed is lost. The page is told where the eye was.</summary>
    public void Arrange(string act, ModelStateDictionary state, ViewDataDictionary view)
    {
        (view["Moved"], view["Act"]) = (Arrange(act), act.Split('-')[0]);
        state.Clear();
    }

    /// <returns>The column that the act was about.</returns>
    private int Arrange(string act)
    {
        var (verb, at) = (act.Split('-')[0], int.TryParse(act.Split('-')[^1], CultureInfo.InvariantCulture, out var n) && n >= 0 && n < Columns.Count ? n : -1);
        switch (verb)
        {
            case "up" when at > 0:
                (Columns[at - 1], Columns[at]) = (Columns[at], Columns[at - 1]);
                return at - 1;
            case "down" when at >= 0 && at < Columns.Count - 1:
                (Columns[at + 1], Columns[at]) = (Columns[at], Columns[at + 1]);
                return at + 1;
            case "out" when at >= 0:
                Columns.RemoveAt(at);
                return Math.Min(at, Columns.Count - 1);
            case "add" when Columns.Count < MostColumns:
                Columns.Add(new ColumnForm { From = "tag" });
                return Columns.Count - 1;
            case "all":
                Columns = [.. Columns.Concat(ReportFields.General.Where(f => Columns.TrueForAll(c => c.From != f.From)).Select(ColumnForm.Of)).Take(MostColumns)];
                return -1;
            default:
                return at;
        }
    }

    private string Text(FormReading read) => new JsonObject
    {
        ["code"] = Trimmed(Code),
        ["name"] = Trimmed(Name),
        ["jurisdiction"] = Trimmed(Jurisdiction),
        ["state"] = Trimmed(State),
        ["citation"] = Trimmed(Citation),
        ["read"] = read.Day(ReadOn, nameof(ReadOn), "day the rule was read") is { } day ? TypedNumbers.Plain(day) : null,
        ["notKnown"] = List((NotKnown ?? "").ReplaceLineEndings("\n").Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)),
        ["period"] = Trimmed(Period),
        ["deadline"] = Deadline(read, DeadlineRule, DeadlineDays, nameof(DeadlineDays), "days until it is due"),
        ["events"] = List(Chosen((Activation, CountedEvent.Activation), (Completion, CountedEvent.Completion), (Alteration, CountedEvent.Alteration), (Test, CountedEvent.Test))),
        ["nilReport"] = NilReport,
        ["fee"] = new JsonObject { ["cents"] = read.Money(Fee, nameof(Fee), "fee for each system")?.Cents ?? 0, ["deadline"] = Deadline(read, FeeRule, FeeDays, nameof(FeeDays), "days until the fee is due"), ["citation"] = Trimmed(FeeCitation) },
        ["retention"] = new JsonObject { ["years"] = read.Whole(Years, nameof(Years), "years records are kept", 0, 100) ?? 0, ["orLongerWarranty"] = OrLongerWarranty, ["forEver"] = ForEver, ["citation"] = Trimmed(KeepCitation) },
        ["privacy"] = new JsonObject { ["addressesPrivate"] = AddressesPrivate, ["ownerOnly"] = OwnerOnly, ["words"] = Trimmed(PrivacyWords), ["citation"] = Trimmed(PrivacyCitation) },
        ["files"] = List(Chosen((Csv, FileKind.Csv), (Xlsx, FileKind.Xlsx), (Pdf, FileKind.Pdf))),
        ["fields"] = new JsonArray([.. Columns.Select((c, i) => (JsonNode?)c.Text(read, i))]),
    }.ToJsonString();

    public static IEnumerable<(string Value, string Words)> Periods { get; } = Enum.GetValues<PeriodKind>().Select(k => (JsonWord.Of(k), ProfileModel.PeriodWords(k))).ToList();

    public static IEnumerable<(string Value, string Words)> Rules { get; } =
    [
        (JsonWord.Of(DeadlineKind.None), "no day, or not known"), (JsonWord.Of(DeadlineKind.DaysAfterPeriod), "days after the period"), (JsonWord.Of(DeadlineKind.DaysAfterEvent), "days after each system's day"),
        (JsonWord.Of(DeadlineKind.BusinessDaysAfterPeriod), "business days after the period"), (JsonWord.Of(DeadlineKind.BusinessDaysAfterQuarter), "business days after the quarter"),
    ];

    private static JsonObject Deadline(FormReading read, string? rule, string? days, string field, string name)
    {
        var (kind, count) = (Trimmed(rule), read.Whole(days, field, name, 0, 1000));
        var deadline = new JsonObject { ["rule"] = kind };
        if (count is { } n && kind != JsonWord.Of(DeadlineKind.None)) deadline["days"] = n;
        return deadline;
    }

    private static List<string> Chosen<T>(params ReadOnlySpan<(bool Ticked, T Value)> choices)
        where T : struct, Enum
    {
        var chosen = new List<string>();
        foreach (var (ticked, value) in choices)
            if (ticked) chosen.Add(JsonWord.Of(value));
        return chosen;
    }

    private static JsonArray List(IEnumerable<string> texts) => new([.. texts.Select(t => (JsonNode?)t)]);

    private static string Days(DeadlineRule rule) => rule.Kind == DeadlineKind.None ? "" : Whole(rule.Days);

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Trimmed(string? typed) => (typed ?? "").Trim().Replace("\0", "", StringComparison.Ordinal);
}
