using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices.Changes;

public enum ChangeState
{
    Draft,
    Sent,
    Agreed,
    Declined,
    Withdrawn,
    Replaced,
}

/// <summary>What is changed in work that was signed for: lines added, taken out, or changed, with the reason and the price.
/// Editable as a draft; once sent its lines, prices and paper never change.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Number), IsUnique = true)]
[Index(nameof(JobId), nameof(Position), IsUnique = true)]
[Index(nameof(AcceptanceId))]
public sealed class ChangeOrder : Record
{
    /// <summary>The job's number and the position in it: "J-2026-0042-1".</summary>
    public required string Number { get; set; }
    public int JobId { get; set; }
    public int HouseId { get; set; }
    public int AcceptanceId { get; set; }
    public int Position { get; set; }
    public ChangeState State { get; set; }
    public string Reason { get; set; } = "";

    /// <summary>What it does to the days of the work, in words; may be empty.</summary>
    public string TimeEffect { get; set; } = "";
    public DateTime CreatedAtUtc { get; set; }
    public required string CreatedBy { get; set; }
    public DateTime? SentAtUtc { get; set; }
    public DateOnly? ValidUntil { get; set; }

    /// <summary>The price before it and after it, tax included; written at sending.</summary>
    public Money OldTotal { get; set; }
    public Money Net { get; set; }
    public Money Tax { get; set; }
    public Money NewTotal { get; set; }
    public int? PdfDocumentId { get; set; }
    public string DeclineReason { get; set; } = "";
    public List<ChangeLine> Lines { get; set; } = [];

    public Money Difference => NewTotal - OldTotal;
}

public enum ChangeKind
{
    Added,
    TakenOut,
    Changed,
}

/// <summary>One line of a change order.</summary>
[Holds(Truth.Fact)]
public sealed class ChangeLine : Record
{
    public int ChangeOrderId { get; set; }
    public int Position { get; set; }
    public ChangeKind Kind { get; set; }

    /// <summary>Key of the line that is taken out or changed; empty where one is added.</summary>
    public string Of { get; set; } = "";

    /// <summary>That line as it was, written at sending.</summary>
    public string WasWords { get; set; } = "";
    public Money WasAmount { get; set; }
    public int? PriceItemId { get; set; }
    public string Words { get; set; } = "";
    public decimal Quantity { get; set; } = 1;
    public string Unit { get; set; } = "each";
    public Money UnitPrice { get; set; }

    /// <summary>False while the office has still to write the price.</summary>
    public bool Priced { get; set; }
    public bool Taxable { get; set; }

    /// <summary>What the line comes to after the change.</summary>
    public Money Amount => Kind == ChangeKind.TakenOut ? Money.Zero : UnitPrice.Times(Quantity);

    public Money Difference => Amount - WasAmount;
}

/// <summary>The secret link under which the customer sees one change order. Only the hash is kept.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TokenHash), IsUnique = true)]
public sealed class ChangeLink : Record
{
    public int ChangeOrderId { get; set; }

    [NotAudited]
    public required string TokenHash { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DateTime ExpiresAtUtc { get; set; }
    public DateTime? RevokedAtUtc { get; set; }

    /// <summary>Who handed over the tablet on which it was opened; empty: it went by mail.</summary>
    public string HandedBy { get; set; } = "";
}
