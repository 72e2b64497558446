using static MitigationOffice.Business.StateReports.Profiles.EnteredAt;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>Every value a profile can ask for: what the rules read so far want, so that any of their forms can be filled from it.
/// In this order they are the general layout.</summary>
public static class ReportFields
{
    /// <summary>How a day may be written.</summary>
    public static readonly IReadOnlyList<string> DayForms = ["yyyy-MM-dd", "MM/dd/yyyy", "M/d/yyyy", "yyyyMMdd", "dd-MMM-yyyy", "MM-dd-yyyy"];

    /// <summary>How a number may be written.</summary>
    public static readonly IReadOnlyList<string> NumberForms = ["0", "0.0", "0.00", "0.000"];

    public static readonly IReadOnlyList<ReportField> All =
    [
        new("report_period", "period reported", Report, FieldOf.Run),
        new("row_kind", "kind of row", Report, FieldOf.Row),
        new("no_work", "no work in the period", Report, FieldOf.Run),
        new("company", "company name", Company, FieldOf.Run, Needed: true, Free: true),
        new("company_certification", "company's certification number", Report, FieldOf.Run, Needed: true, Free: true),
        new("person_certification", "certified persons' numbers", Licences, FieldOf.Run, Free: true),
        new("job_number", "job number", Job),
        new("customer", "customer's name", Customer, Needed: true, Free: true),
        new("customer_phone", "customer's phone", Customer, Amends: false),
        new("street", "street", Inquiry, Needed: true, Free: true),
        new("city", "city", Inquiry, Needed: true, Free: true),
        new("county", "county", Inquiry, Needed: true, Free: true),
        new("state", "state", Inquiry, Needed: true, Free: true),
        new("zip", "ZIP code", Inquiry, Needed: true, Free: true),
        new("building_type", "kind of building", Inquiry),
        new("foundation_type", "kinds of foundation", Inquiry, Needed: true),
        new("start_date", "day the work began", Job, Kind: FieldKind.Day, Needed: true),
        new("fan_activation_date", "day the fan was switched on", AsBuilt, Kind: FieldKind.Day),
        new("completion_date", "day the work was complete", AsBuilt, Kind: FieldKind.Day),
        new("system_type", "type of system", AsBuilt, Needed: true, Free: true),
        new("suction_points", "number of suction points", AsBuilt, Kind: FieldKind.Number, Needed: true),
        new("fan_location", "place of the fan", AsBuilt, Needed: true, Free: true),
        new("fan_model", "model of the fan", AsBuilt, Free: true, Amends: false),
        new("fan_serial", "serial number of the fan", AsBuilt, Free: true, Amends: false),
        new("pipe_size", "pipe size", AsBuilt, Needed: true, Free: true),
        new("start_up_suction_inwc", "start-up gauge reading, inWC", AsBuilt, Kind: FieldKind.Number, Needed: true) { Decimals = 2 },
        new("start_up_suction_pa", "start-up gauge reading, Pa", AsBuilt, Kind: FieldKind.Number),
        new("tag", "tag number", AsBuilt, Needed: true, Free: true),
        new("pre_test_pcil", "radon level before", Inquiry, Kind: FieldKind.Number, Needed: true) { Decimals = 1 },
        new("pre_test_method", "device of the test before", Inquiry, Free: true),
        new("pre_test_start", "start of the test before", Inquiry, Kind: FieldKind.Day),
        new("pre_test_end", "end of the test before", Inquiry, Kind: FieldKind.Day),
        new("pre_test_tester", "tester of the test before", Inquiry, Free: true),
        new("post_test_pcil", "radon level after", Proof, Kind: FieldKind.Number) { Decimals = 1 },
        new("post_test_method", "device of the test after", Proof),
        new("post_test_start", "start of the test after", Proof, Kind: FieldKind.Day),
        new("post_test_end", "end of the test after", Proof, Kind: FieldKind.Day),
        new("post_test_tester", "tester of the test after", Proof, Free: true),
        new("post_test_window", "remark on the time of the test after", Proof),
        new("cost", "price of the system", AsBuilt, Kind: FieldKind.Number, Needed: true) { Decimals = 2 },
        new("backdraft_check", "backdraft check", AsBuilt, Needed: true),
        new("counted_as", "what is counted", Report, FieldOf.Row),
        new("late_from_period", "period it should have been in", Report, FieldOf.Row),
        new("amends", "report and row amended", Report, FieldOf.Row),
        new("changed", "what is amended, and why", Report, FieldOf.Row),
        new("signed_by", "person who signs", Report, FieldOf.Run, Free: true),
        new("notes", "notes", AsBuilt, Free: true, Amends: false),
    ];

    private static readonly Dictionary<string, int> Places = All.Select((f, i) => (f.Name, i)).ToDictionary(StringComparer.Ordinal);

    /// <summary>Its place in <see cref="All"/>; −1 where the office knows no such value.</summary>
    public static int PlaceOf(string name) => Places.GetValueOrDefault(name, -1);

    public static ReportField? Find(string name) => PlaceOf(name) is var place and >= 0 ? All[place] : null;

    /// <summary>Every value, each under its own name.</summary>
    public static IReadOnlyList<ProfileField> General { get; } = [.. All.Where(f => f.Name != "start_up_suction_pa").Select(f => Of(f))];

    /// <summary>A value as the general layout shows it.</summary>
    public static ProfileField Of(string name) => Of(Find(name) ?? throw new ArgumentException($"The office knows no value {name}.", nameof(name)));

    internal static ProfileField Of(ReportField f) => new(f.Name, f.Name, "", f.Needed, f.Amends && f.Of == FieldOf.System, 0, new Dictionary<string, string>(StringComparer.Ordinal), "");
}

/// <summary>One system's values, in the places of <see cref="ReportFields.All"/>; what is not there is empty.</summary>
public sealed class ReportValues
{
    private readonly string[] _values = new string[ReportFields.All.Count];

    public string this[string name]
    {
        get => this[ReportFields.PlaceOf(name)];
        set => _values[ReportFields.PlaceOf(name)] = value;
    }

    public string this[int place] => _values[place] ?? "";

    /// <summary>Whether anything was said of it, be it that it is empty.</summary>
    public bool Has(int place) => _values[place] is not null;

    public void Put(int place, string value) => _values[place] = value;

    /// <summary>Holds texts that others hold too only once.</summary>
    public void Share(SharedText shared)
    {
        for (var i = 0; i < _values.Length; i++)
            if (_values[i] is { } value) _values[i] = shared.Of(value);
    }
}
