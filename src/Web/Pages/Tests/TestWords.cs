using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Pages.Tests;

public static class TestWords
{
    public static readonly (string Value, string Words)[] Reasons = [.. Enum.GetValues<TestReason>().Select(r => (r.ToString(), Of(r)))];

    public static string Of(TestReason reason) => reason switch
    {
        TestReason.PostMitigation => "First test after the work",
        TestReason.Retest => "Retest",
        TestReason.AfterChange => "After a change",
        _ => "For a sale",
    };

    public static string Of(TestOutcome outcome) => outcome switch
    {
        TestOutcome.BelowTarget => "Passed, below the promised level",
        TestOutcome.BelowActionLevel => "Below the action level, more reduction offered",
        TestOutcome.NotPassed => "Not passed",
        TestOutcome.NotValid => "Not valid, test again",
        _ => "Not judged",
    };
}
