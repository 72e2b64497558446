namespace MitigationOffice.Business.Messages.Sender;

public enum Stands
{
    Right,
    Look,
    Change,
}

/// <summary>One thing that was looked at: how it stands, what to do in words, and the paragraph that says so.</summary>
public sealed record Finding(Stands Stands, string Words, string Source);
