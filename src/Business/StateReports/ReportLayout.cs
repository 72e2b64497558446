namespace MitigationOffice.Business.StateReports;

/// <summary>Where a value is entered.</summary>
public enum EnteredAt
{
    Company,
    Inquiry,
    Work,
    Proof,
}

/// <summary>One column of the layout.</summary>
/// <param name="Needed">An empty value is a gap to fill before the month is frozen.</param>
/// <param name="Free">Typed freely: must not begin like a formula, for the file goes into spreadsheets as it is.</param>
public sealed record ReportColumn(string Name, string Words, EnteredAt At, bool Needed = false, bool Free = false);

/// <summary>The general layout: every field that the state programs we know of ask for, so that any of their forms can be filled from
/// it. Confirm with your state program which it wants and by when.</summary>
public static class ReportLayout
{
    public const string General = "general-1";

    public static readonly IReadOnlyList<ReportColumn> Columns =
    [
        new("report_month", "month reported", EnteredAt.Company),
        new("no_work", "no work in the month", EnteredAt.Company),
        new("company", "company name", EnteredAt.Company, Needed: true, Free: true),
        new("company_certification", "certification number", EnteredAt.Company, Needed: true, Free: true),
        new("person_certification", "certified person's number", EnteredAt.Company, Free: true),
        new("job_number", "job number", EnteredAt.Work),
        new("customer", "customer's name", EnteredAt.Inquiry, Needed: true, Free: true),
        new("customer_phone", "customer's phone", EnteredAt.Inquiry),
        new("street", "street", EnteredAt.Inquiry, Needed: true, Free: true),
        new("city", "city", EnteredAt.Inquiry, Needed: true, Free: true),
        new("county", "county", EnteredAt.Inquiry, Needed: true, Free: true),
        new("state", "state", EnteredAt.Inquiry, Needed: true, Free: true),
        new("zip", "ZIP code", EnteredAt.Inquiry, Needed: true, Free: true),
        new("building_type", "kind of building", EnteredAt.Inquiry),
        new("foundation_type", "kinds of foundation", EnteredAt.Inquiry, Needed: true),
        new("start_date", "day the work began", EnteredAt.Work, Needed: true),
        new("fan_activation_date", "day the fan was switched on", EnteredAt.Work),
        new("completion_date", "day the work was complete", EnteredAt.Work),
        new("system_type", "type of system", EnteredAt.Work, Needed: true, Free: true),
        new("suction_points", "number of suction points", EnteredAt.Work, Needed: true),
        new("fan_location", "place of the fan", EnteredAt.Work, Needed: true, Free: true),
        new("pipe_size", "pipe size", EnteredAt.Work, Needed: true, Free: true),
        new("start_up_suction_inwc", "start-up gauge reading", EnteredAt.Work, Needed: true),
        new("tag", "tag number", EnteredAt.Work, Needed: true, Free: true),
        new("pre_test_pcil", "radon level before", EnteredAt.Inquiry, Needed: true),
        new("pre_test_method", "device of the test before", EnteredAt.Inquiry, Free: true),
        new("pre_test_start", "start of the test before", EnteredAt.Inquiry),
        new("pre_test_end", "end of the test before", EnteredAt.Inquiry),
        new("pre_test_tester", "tester of the test before", EnteredAt.Inquiry, Free: true),
        new("post_test_pcil", "radon level after", EnteredAt.Proof),
        new("post_test_method", "device of the test after", EnteredAt.Proof),
        new("post_test_start", "start of the test after", EnteredAt.Proof),
        new("post_test_end", "end of the test after", EnteredAt.Proof),
        new("post_test_tester", "tester of the test after", EnteredAt.Proof, Free: true),
        new("post_test_window", "remark on the time of the test after", EnteredAt.Proof),
        new("cost", "price of the system", EnteredAt.Work, Needed: true),
        new("backdraft_check", "backdraft check", EnteredAt.Work, Needed: true),
        new("late_from_month", "month it should have been in", EnteredAt.Work),
        new("notes", "notes", EnteredAt.Work, Free: true),
    ];
}
