using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

/// <summary>Whether mail may leave now. One row.</summary>
[Holds(Truth.Plan)]
public sealed class OutboxGate : Record
{
    /// <summary>When the outbox was last looked at with a clock that was believed.</summary>
    public DateTime LastTickUtc { get; set; }

    /// <summary>The server asked for a pause until then.</summary>
    public DateTime? PausedUntilUtc { get; set; }
    public string PausedWhy { get; set; } = "";

    /// <summary>Not empty: the clock is not believed, and nothing goes out until a person says that it is right.</summary>
    public string HeldWhy { get; set; } = "";
}
