using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Pages.Tests;

public static class TestWords
{
    public static string Of(TestOutcome outcome) => outcome switch
    {
        TestOutcome.BelowTarget => "Passed, below the promised level",
        TestOutcome.BelowActionLevel => "Below the action level, more reduction offered",
        TestOutcome.NotPassed => "Not passed",
        TestOutcome.NotValid => "Not valid, test again",
        _ => "Not judged",
    };
}
