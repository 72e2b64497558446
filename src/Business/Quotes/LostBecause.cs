namespace MitigationOffice.Business.Quotes;

/// <summary>Why an offer came to nothing.</summary>
public enum LostBecause
{
    NotSaid,
    Price,
    SomeoneElse,
    NotNow,
    LevelNotHigh,
    HouseSold,
    NoAnswer,
    WeTookItBack,
    Other,
}
