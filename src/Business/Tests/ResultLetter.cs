using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

/// <summary>What the letter says, gathered once; the paper is made from this alone.</summary>
public sealed record ResultLetterFacts
{
    public required DateTime MadeAtUtc { get; init; }
    public required DateOnly Day { get; init; }
    public required string Company { get; init; }
    public string Phone { get; init; } = "";
    public string CertificationNumber { get; init; } = "";
    public string StateProgram { get; init; } = "";
    public required string House { get; init; }
    public string For { get; init; } = "";
    public required TestOutcome Outcome { get; init; }
    public required RadonConcentration Deciding { get; init; }
    public required decimal TargetPCiL { get; init; }
    public required string Started { get; init; }
    public required string Ended { get; init; }
    public string MadeBy { get; init; } = "";
    public string MadeByNumber { get; init; } = "";
    public required IReadOnlyList<PaperRow> Rooms { get; init; }
    public IReadOnlyList<string> Why { get; init; } = [];
    public DateOnly? TestAgainOn { get; init; }
    public string Before { get; init; } = "";
}

/// <summary>The result of a radon test in plain words for the people who live in the house. Risks are the published rows only.</summary>
public static class ResultLetter
{
    public static byte[] Make(ResultLetterFacts f) => Paper.Make(
        new PaperHead($"Radon result, {f.House}", f.Company, f.MadeAtUtc) { Boxes = [new("House", f.House, 2), new("For", f.For, 1.4), new("Paper", "Radon result", 1.1), new("Date", HouseTime.Show(f.Day), 1)] },
        paper =>
        {
            paper.Title(Headline(f.Outcome));
            paper.Text(f.For.Length == 0 ? f.House : $"For {f.For}, {f.House}", soft: true);
            foreach (var line in PlainWords(f)) paper.Text(line);
            if (f.Outcome is TestOutcome.NotPassed or TestOutcome.NotValid) paper.Caution("What happens now", Next(f));
            else paper.Note("What to do now", Next(f));
            paper.Heading("What was measured");
            paper.Table([new("Room", 1.6), new("Device", 1.6), new("Result", 1.9, Right: true)], f.Rooms);
            paper.Text($"From {f.Started} to {f.Ended}. Made by {(f.MadeBy.Length == 0 ? f.Company : f.MadeBy)}{(f.MadeByNumber.Length == 0 ? "" : $", no. {f.MadeByNumber}")}.{(f.Before.Length == 0 ? "" : $" Before the work: {f.Before}.")}", small: true);
            if (f.Outcome != TestOutcome.NotValid) Risk(paper, f.Deciding);
            if (f.Why.Count > 0) paper.Heading("Why we say so");
            if (f.Why.Count > 0) paper.Bullets(f.Why);
            paper.Text($"Radon goes up and down with weather and season; one short test is a look at a few days. {f.Company}{(f.Phone.Length == 0 ? "" : ", " + f.Phone)}{(f.CertificationNumber.Length == 0 ? "" : $", certification no. {f.CertificationNumber}")}.{(f.StateProgram.Length == 0 ? "" : $" Radon program: {f.StateProgram}.")}", small: true);
        });

    public static string Headline(TestOutcome outcome) => outcome switch
    {
        TestOutcome.BelowTarget => "The radon is down",
        TestOutcome.BelowActionLevel => "The radon is below the action level",
        TestOutcome.NotPassed => "The radon is still too high",
        _ => "This test does not count",
    };

    /// <summary>The verdict in a few short sentences: the letter's and the message's.</summary>
    public static IEnumerable<string> PlainWords(ResultLetterFacts f) => f.Outcome switch
    {
        TestOutcome.BelowTarget =>
        [
            $"The highest place in your house shows {f.Deciding.Display()}. That is below the {TypedNumbers.Plain(f.TargetPCiL)} pCi/L we promised, and below the 4.0 pCi/L at which the EPA says to fix a house.",
        ],
        TestOutcome.BelowActionLevel =>
        [
            $"The highest place in your house shows {f.Deciding.Display()}. That is below the 4.0 pCi/L at which the EPA says to fix a house, but not below the {TypedNumbers.Plain(f.TargetPCiL)} pCi/L we aim for.",
            "Between 2 and 4 pCi/L the EPA says to think about lowering it further. We will talk with you about what can be done.",
        ],
        TestOutcome.NotPassed =>
        [
            $"The highest place in your house shows {f.Deciding.Display()}. That is at or above the 4.0 pCi/L at which the EPA says to fix a house. The system has not done its work yet.",
        ],
        _ => ["Something about this test makes its number unreliable, so no verdict can be drawn from it. The reasons stand below. The test is made again."],
    };

    public static string Next(ResultLetterFacts f) => f.Outcome switch
    {
        TestOutcome.NotPassed => "We come back, find the cause, correct the system and test again. Leave the fan running meanwhile.",
        TestOutcome.NotValid => "We set out devices again. Please keep windows and doors shut for 12 hours before and during the test, but for coming and going. Leave the fan running.",
        _ => $"Leave the fan running and look at the gauge once a month. Test again by {HouseTime.Show(f.TestAgainOn)}, and before a sale or after building work. A test of more than 90 days tells you more about the whole year than a few days can; ask us if you want one.",
    };

    private static void Risk(Paper paper, RadonConcentration deciding)
    {
        var (below, above) = RiskTable.Around(deciding);
        var rows = new[] { above, below }.OfType<RiskRow>().Distinct().ToList();
        paper.Heading("What the level means");
        paper.Text("Out of 1,000 people who live with this level all their life, so many get lung cancer from it. These are the published levels nearest to your result; nothing is estimated between them.");
        paper.Table(
            [new("Level", 1.1), new("Smokers", 1, Right: true), new("Never smoked", 1, Right: true), new("The EPA's advice", 2.2)],
            rows.Select(r => new PaperRow(r.Level.ToString(), Count(r.SmokersPerThousand), Count(r.NeverSmokersPerThousand), r.Advice)));
        paper.Text($"Source: {RiskTable.Source.Text}. Someone who has stopped smoking may lie between the two.", small: true, soft: true);
    }

    private static string Count(int? people) => people is { } n ? $"about {n}" : "not given";
}
