namespace MitigationOffice.Web.Pages.Houses;

/// <summary>How far a house has come: what is waiting to be done next. Computed from the records, never stored.</summary>
public enum HouseStage
{
    ToDiagnose = 1,
    ToDesign,
    ToPrice,
    QuoteInDraft,
    QuoteOut,
    QuoteRanOut,
    QuoteDeclined,
    ToPlan,
    Planned,
    AsBuiltMissing,
    CalledOff,
    NotTested,
    DevicesOut,
    ResultToJudge,
    NotPassed,
    Proven,
}

public static class HouseStageWords
{
    public static string Words(this HouseStage stage) => stage switch
    {
        HouseStage.AsBuiltMissing => "done, as-built missing",
        HouseStage.NotTested => "running, not tested",
        _ => Setup.Forms.Words.Of(stage).ToLowerInvariant(),
    };

    /// <summary>The sheet on which the house stands; a person who may not see prices gets the sheet before it.</summary>
    public static string Sheet(this HouseStage stage, bool seesPrices) => stage switch
    {
        HouseStage.ToDiagnose => "inquiry",
        HouseStage.ToDesign => "design",
        HouseStage.ToPrice or HouseStage.QuoteInDraft or HouseStage.QuoteOut or HouseStage.QuoteRanOut or HouseStage.QuoteDeclined => seesPrices ? "quote" : "design",
        HouseStage.ToPlan or HouseStage.Planned or HouseStage.AsBuiltMissing or HouseStage.CalledOff => "work",
        HouseStage.Proven => seesPrices ? "follow-up" : "proof",
        _ => "proof",
    };
}
