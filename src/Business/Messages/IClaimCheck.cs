using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Messages;

/// <summary>What is to become of a message that is about to be given over.</summary>
public sealed record ClaimVerdict
{
    public static readonly ClaimVerdict Go = new();

    /// <summary>Not empty: it does not go, and this is why.</summary>
    public string Withdrawn { get; private init; } = "";

    /// <summary>It goes with these words instead of those it was written with.</summary>
    public (Letter Letter, MailIdentity From)? Anew { get; private init; }

    public static ClaimVerdict Withdraw(string why) => new() { Withdrawn = why };

    public static ClaimVerdict GoAnew(Letter letter, MailIdentity from) => new() { Anew = (letter, from) };
}

/// <summary>Looks once more whether a message still says what is true, in the transaction that claims it. Subjects that write by
/// themselves bring their own; what a person wrote or pressed a button for is nobody's to hold back.</summary>
public interface IClaimCheck
{
    /// <param name="message">As claimed. One that may have left already (<see cref="OutboxMessage.MayHaveLeft"/>) can go as it is or stay, never anew.</param>
    Task<ClaimVerdict> LookAsync(OfficeDb db, OutboxMessage message, DateTime nowUtc, CancellationToken cancel);
}
