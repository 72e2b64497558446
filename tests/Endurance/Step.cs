namespace MitigationOffice.Endurance;

/// <summary>Places in a talk with the server at which the client may be killed.</summary>
public enum Step
{
    Connected,
    Sender,
    Recipient,
    AskedForText,
    InsideText,
    TextTakenNotAnswered,
    Answered,
}

/// <summary>What the server does with one message.</summary>
public enum Fate
{
    Take,
    TakeSlowly,
    TakeThenCut,
    KeepAndCutUnanswered,
    LoseAndCutUnanswered,
    CutInsideText,
    RefuseTextForNow,
    RefuseText,
    RefuseAddressForNow,
    RefuseAddress,
    Pause,
}
