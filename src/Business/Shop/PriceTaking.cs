namespace MitigationOffice.Business.Shop;

/// <summary>What a design counts an item of the price book by.</summary>
public enum TakenBy
{
    /// <summary>Once for each job.</summary>
    Job,
    PipeFoot,

    /// <summary>The stock length that is bought.</summary>
    PipeLength,
    OutdoorFoot,

    /// <summary>Any fitting that no other item of the book counts by its kind.</summary>
    Fitting,
    Elbow,
    Tee,
    Coupling,
    Reducer,
    Support,
    Fan,
    WallPassage,
    RoofPassage,

    /// <summary>Through the wall between house and garage.</summary>
    GaragePassage,
    SuctionPoint,

    /// <summary>An hour of the labour in the other lines.</summary>
    Hour,

    /// <summary>Never by itself; a person takes it.</summary>
    Hand,
}

/// <summary>What has to be found out of a house before an item is wanted.</summary>
public enum OfferReason
{
    /// <summary>Nothing: the company's own judgement.</summary>
    Always,

    /// <summary>Days a winter on which ice closes the outdoor pipe.</summary>
    FreezeGuard,

    /// <summary>The same, where no cable would do.</summary>
    Insulation,

    /// <summary>Water that runs onto the fan, pounds a day.</summary>
    CondensateBypass,

    /// <summary>An open sump.</summary>
    SumpLid,

    /// <summary>Trees over the roof.</summary>
    CritterGuard,

    /// <summary>Floors on which one alarm must be heard.</summary>
    SecondAlarm,

    /// <summary>Appliances that draw by the chimney alone.</summary>
    BackdraftAlarm,

    /// <summary>The pipe's share of the fan's pressure, percent.</summary>
    LargerPipe,

    /// <summary>Suction at the weakest hole in design winter, Pa.</summary>
    ExtraSuctionPoint,
}
