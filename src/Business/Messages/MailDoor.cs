namespace MitigationOffice.Business.Messages;

public enum DoorSaid
{
    /// <summary>It has the message.</summary>
    Taken,

    /// <summary>It does not have it; the same message may be tried later.</summary>
    Later,

    /// <summary>Nothing can be sent now: try everything later.</summary>
    NotNow,

    /// <summary>It will not take this message.</summary>
    Never,

    /// <summary>It will not take any message for this address.</summary>
    NoSuchAddress,

    /// <summary>It may have the message.</summary>
    NotKnown,
}

/// <param name="Words">The answer as it came, or what happened instead of one.</param>
public sealed record DoorAnswer(DoorSaid Said, string Words)
{
    /// <summary>True when trying the next message makes no sense now.</summary>
    public bool StopHere { get; init; }
}

/// <summary>Where mail leaves the office: the edge of the world.</summary>
public interface IMailDoor : IAsyncDisposable
{
    Task<DoorAnswer> SendAsync(int id, string subject, byte[] mime, CancellationToken cancel);
}
