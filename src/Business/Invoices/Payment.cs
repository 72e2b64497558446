using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

public enum PaidBy
{
    Check,
    Cash,
    Card,
    Transfer,
}

public enum PaymentKind
{
    Received,

    /// <summary>Given back; the amount is below zero.</summary>
    Refund,

    /// <summary>Undoes a payment or refund entered wrongly; the amount is its opposite.</summary>
    CounterEntry,
}

/// <summary>Money that came or went for one customer's work at one house. Written once; a wrong one is undone by a counter entry.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(HouseId), nameof(CustomerId))]
[Index(nameof(UndoesPaymentId), IsUnique = true)]
public sealed class Payment : Record
{
    public int HouseId { get; set; }
    public int CustomerId { get; set; }
    public PaymentKind Kind { get; set; }
    public DateOnly Day { get; set; }
    public Money Amount { get; set; }
    public PaidBy How { get; set; }

    /// <summary>Check number, number of the transfer.</summary>
    public string Reference { get; set; } = "";
    public string Note { get; set; } = "";
    public int? UndoesPaymentId { get; set; }
    public DateTime EnteredAtUtc { get; set; }
    public required string EnteredBy { get; set; }
}

/// <summary>The buyer took the signature back in time: what was paid is owed back.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(AcceptanceId), IsUnique = true)]
public sealed class CancelledSale : Record
{
    public int AcceptanceId { get; set; }
    public int HouseId { get; set; }
    public int CustomerId { get; set; }

    /// <summary>The day the notice was handed over or posted.</summary>
    public DateOnly GivenOn { get; set; }

    /// <summary>The day it came; the ten business days run from it.</summary>
    public DateOnly ReceivedOn { get; set; }
    public DateOnly OwedBackBy { get; set; }
    public string Note { get; set; } = "";
    public required string EnteredBy { get; set; }
    public DateTime EnteredAtUtc { get; set; }
}
