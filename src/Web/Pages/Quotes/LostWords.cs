using MitigationOffice.Business.Quotes;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>Why an offer came to nothing, as the pages say it.</summary>
public static class LostWords
{
    private static readonly (LostBecause Value, string Office, string Owner)[] All =
    [
        (LostBecause.Price, "the price", "The price"), (LostBecause.SomeoneElse, "someone else does the work", "Someone else does it"), (LostBecause.NotNow, "not now", "Not now, perhaps later"),
        (LostBecause.LevelNotHigh, "the level is low enough for them", "The radon level is low enough for me"), (LostBecause.HouseSold, "the house is sold", "The house is sold"),
        (LostBecause.NoAnswer, "no answer came", ""), (LostBecause.WeTookItBack, "we took it back", ""), (LostBecause.Other, "another reason", "Another reason"),
    ];

    /// <summary>For the office; a reason must be chosen.</summary>
    public static readonly IReadOnlyList<(string Value, string Words)> ForOffice = [("", "Choose a reason"), .. All.Select(a => ($"{a.Value}", a.Office))];

    /// <summary>For the house owner, who may keep it to themselves.</summary>
    public static readonly IReadOnlyList<(string Value, string Words)> ForOwner = [("", "I would rather not say"), .. All.Where(a => a.Owner.Length > 0).Select(a => ($"{a.Value}", a.Owner))];

    public static string Of(LostBecause because) => All.FirstOrDefault(a => a.Value == because).Office ?? "";

    /// <summary>One of the reasons the house owner is asked for; anything else is none.</summary>
    public static LostBecause Read(string? value) => ForOwner.Any(o => o.Value == value) && Enum.TryParse<LostBecause>(value, out var because) ? because : LostBecause.NotSaid;
}
