namespace MitigationOffice.Business.Messages;

/// <summary>When a message that was not taken is tried again (RFC 5321 section 4.5.4.1: at least 30 minutes apart, given up after
/// 4 to 5 days).</summary>
public static class Retry
{
    public static readonly TimeSpan Longest = TimeSpan.FromDays(5);

    /// <summary>30 minutes, an hour, two, then every four; each longer by up to a fifth, so that a crowd does not come back at once.
    /// The spread hangs on the message alone.</summary>
    public static TimeSpan Wait(int id, int attempts)
    {
        var minutes = Math.Min(30.0 * Math.Pow(2, Math.Clamp(attempts - 1, 0, 10)), 240.0);
        var spread = unchecked((uint)id * 2654435761u + (uint)attempts * 40503u) % 1000u / 1000.0;
        return TimeSpan.FromMinutes(minutes * (1 + spread / 5));
    }

    public static DeliveryState StateAfter(OutboxMessage message, DoorSaid said, DateTime nowUtc) => said switch
    {
        DoorSaid.Taken => DeliveryState.Sent,
        DoorSaid.NotKnown => DeliveryState.Uncertain,
        DoorSaid.Never or DoorSaid.NoSuchAddress => DeliveryState.Refused,
        DoorSaid.Later when nowUtc - message.CreatedAtUtc > Longest && message.Attempts > 1 => DeliveryState.Refused,
        _ => DeliveryState.Waiting,
    };
}
