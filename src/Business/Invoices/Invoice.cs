using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

public enum InvoiceKind
{
    /// <summary>The deposit agreed with the quote.</summary>
    Deposit,

    /// <summary>The whole work as signed, the deposit invoiced before taken off.</summary>
    Balance,

    /// <summary>Lines written by hand.</summary>
    Free,

    /// <summary>Takes lines of an invoice back; its amounts are below zero.</summary>
    CreditNote,
}

/// <summary>An invoice or credit note as it went out. Written once with its paper, its sums and its number; hash-chained to
/// the one before it. What was wrong is credited, never edited.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(Number), IsUnique = true)]
[Index(nameof(OnceKey), IsUnique = true)]
[Index(nameof(HouseId), nameof(CustomerId))]
[Index(nameof(DueOn))]
public sealed class Invoice : Record
{
    /// <summary>"I-2026-0031"; a credit note "C-2026-0004".</summary>
    public required string Number { get; set; }
    public InvoiceKind Kind { get; set; }
    public int HouseId { get; set; }
    public int CustomerId { get; set; }
    public int? AcceptanceId { get; set; }
    public int? CreditsInvoiceId { get; set; }

    /// <summary>What it is for, where it may be made only once ("deposit:12").</summary>
    public string? OnceKey { get; set; }
    public required string Subject { get; set; }
    public string Note { get; set; } = "";
    public DateOnly IssuedOn { get; set; }

    /// <summary>A credit note carries the day of the invoice it takes back.</summary>
    public DateOnly DueOn { get; set; }
    public Money Net { get; set; }
    public Money Tax { get; set; }
    public Money Total { get; set; }
    public DateTime IssuedAtUtc { get; set; }
    public required string IssuedBy { get; set; }
    public int PdfDocumentId { get; set; }
    public required string PdfSha256 { get; set; }
    public required string PreviousHash { get; set; }
    public required string Hash { get; set; }
    public List<InvoiceLine> Lines { get; set; } = [];
    public List<InvoiceTax> Taxes { get; set; } = [];

    /// <summary>Deposits taken off, where they stand beside the work; they come after the tax.</summary>
    public IReadOnlyList<InvoiceLine> TakenOff() => Lines.All(l => l.Kind == LineKind.Deposit) ? [] : [.. Lines.Where(l => l.Kind == LineKind.Deposit).OrderBy(l => l.Position)];

    /// <summary>Of the invoice before it and everything in this one.</summary>
    public string ComputeHash()
    {
        var parts = new List<string>
        {
            PreviousHash, Number, $"{Kind}", Of(HouseId), Of(CustomerId), Of(AcceptanceId ?? 0), Of(CreditsInvoiceId ?? 0), Subject, Note, Of(IssuedOn), Of(DueOn),
            Of(Net.Cents), Of(Tax.Cents), Of(Total.Cents), IssuedAtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture), IssuedBy, PdfSha256,
        };
        foreach (var l in Lines.OrderBy(l => l.Position))
            parts.AddRange([Of(l.Position), l.Words, $"{l.Kind}", TypedNumbers.Plain(l.Quantity), l.Unit, Of(l.UnitPrice.Cents), TypedNumbers.Plain(l.DiscountPercent), $"{l.Taxed}", Of(l.Amount.Cents)]);
        foreach (var t in Taxes.OrderBy(t => t.Position))
            parts.AddRange([Of(t.Position), t.Name, TypedNumbers.Plain(t.Percent), t.Kinds, Of(t.Taxed.Cents), Of(t.Amount.Cents)]);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001f', parts))));
    }

    private static string Of(long number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Of(DateOnly day) => TypedNumbers.Plain(day);
}

/// <summary>A line of an invoice.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(CreditsLineId), IsUnique = true)]
public sealed class InvoiceLine : Record
{
    public int InvoiceId { get; set; }
    public int Position { get; set; }
    public required string Words { get; set; }
    public LineKind Kind { get; set; }
    public decimal Quantity { get; set; } = 1;
    public string Unit { get; set; } = "each";
    public Money UnitPrice { get; set; }
    public decimal DiscountPercent { get; set; }

    /// <summary>Whether a quote's one tax was signed for it. Lines written by hand are taxed by their kind.</summary>
    public bool Taxed { get; set; }
    public Money Amount { get; set; }

    /// <summary>On a credit note: the line it takes back. A line is taken back once.</summary>
    public int? CreditsLineId { get; set; }
}

/// <summary>One tax of an invoice: on how much, and how much. Rounded once.</summary>
[Holds(Truth.Document, Frozen = true)]
public sealed class InvoiceTax : Record
{
    public int InvoiceId { get; set; }
    public int Position { get; set; }
    public required string Name { get; set; }
    public decimal Percent { get; set; }

    /// <summary>Kinds it is due on; empty where the lines themselves are marked.</summary>
    public string Kinds { get; set; } = "";
    public Money Taxed { get; set; }
    public Money Amount { get; set; }

    public bool IsOn(InvoiceLine line) =>
        line.Kind != LineKind.Deposit && (Kinds.Length == 0 ? line.Taxed : Kinds.Split(',').Contains(line.Kind.ToString(), StringComparer.Ordinal));
}
