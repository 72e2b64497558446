using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>An offer to one customer for one house; its revisions hold what was offered.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Number), IsUnique = true)]
[Index(nameof(HouseId))]
public sealed class Quote : Record
{
    /// <summary>"Q-2026-0118".</summary>
    public required string Number { get; set; }
    public int HouseId { get; set; }
    public int CustomerId { get; set; }
    public DateTime CreatedAtUtc { get; set; }

    /// <summary>The customer is not to be reminded of this quote.</summary>
    public bool NoNudges { get; set; }
    public List<QuoteRevision> Revisions { get; set; } = [];
}

public enum RevisionState
{
    Draft,
    Sent,
    Accepted,
    Declined,
    Replaced,
    Withdrawn,
}

/// <summary>One version of the offer. Editable as a draft; once sent its lines, prices, texts and PDF never change.</summary>
[Holds(Truth.Fact)]
[Index(nameof(QuoteId), nameof(Letter), IsUnique = true)]
public sealed class QuoteRevision : Record
{
    public int QuoteId { get; set; }
    public Quote? Quote { get; set; }
    public required string Letter { get; set; }
    public int? SuctionDesignId { get; set; }
    public RevisionState State { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DateTime? SentAtUtc { get; set; }
    public DateOnly? ValidUntil { get; set; }
    public decimal TaxPercent { get; set; }
    public decimal DepositPercent { get; set; }

    /// <summary>Days from issue until the deposit and the balance are due, as the terms say; 0: at once.</summary>
    public int DepositDueDays { get; set; }
    public int BalanceDueDays { get; set; }

    /// <summary>The radon result this offer answers, in words.</summary>
    public string Answers { get; set; } = "";
    public string Introduction { get; set; } = "";
    public string Scope { get; set; } = "";
    public string TimeNeeded { get; set; } = "";
    public string Promise { get; set; } = "";
    public string Cautions { get; set; } = "";
    public string Terms { get; set; } = "";
    public string CancellationNotice { get; set; } = "";

    /// <summary>What the owner of the house must look after.</summary>
    public string OwnersPart { get; set; } = "";

    /// <summary>Why the right-to-cancel notice is left out; empty: it is in.</summary>
    public string NoCancelNoticeBecause { get; set; } = "";

    /// <summary>Running cost of the design's fan, a year; zero where no design stands behind the offer.</summary>
    public Money ElectricityPerYear { get; set; }

    /// <summary>Electricity of the heat cable in a winter, for those who have one.</summary>
    public Money HeatCablePerYear { get; set; }

    /// <summary>Heat of the house air that the fan draws out, a year.</summary>
    public Money HouseAirPerYear { get; set; }

    /// <summary>Price of another fan, fitted, when the first is worn out.</summary>
    public Money FanReplacement { get; set; }

    /// <summary>After how many years that is expected; 0: not known.</summary>
    public int FanLifeYears { get; set; }

    /// <summary>Over how many years the cost of owning is told; 0: ten, or as long as the house is used.</summary>
    public int OwningYears { get; set; }

    /// <summary>What the price book holds and this house does not ask for, and why; one a line.</summary>
    public string NotOffered { get; set; } = "";

    /// <summary>Which tier is recommended (1 to 3), and why.</summary>
    public int RecommendedTier { get; set; } = 2;
    public string WhyRecommended { get; set; } = "";
    public int? PdfDocumentId { get; set; }
    public string DeclineReason { get; set; } = "";

    /// <summary>Why it came to nothing, where it did.</summary>
    public LostBecause LostBecause { get; set; }
    public DateTime? ClosedAtUtc { get; set; }

    /// <summary>The version of the price book its prices are from; 0: from before versions were kept.</summary>
    public int PriceBookVersion { get; set; }

    /// <summary>Taken off the whole, additions included: a share or an amount, never both.</summary>
    public decimal DiscountPercent { get; set; }
    public Money DiscountAmount { get; set; }
    public string DiscountReason { get; set; } = "";

    /// <summary>The price before tax that was agreed before, in the quote this one follows from; zero: none.</summary>
    public Money AgreedPrice { get; set; }

    /// <summary>The radon level that is guaranteed, pCi/L: a test made after the work stays below it. Empty: not said yet; 0: none is guaranteed.</summary>
    public decimal? GuaranteePCiL { get; set; }
    public int GuaranteeMonths { get; set; }

    /// <summary>Visits made at no charge until the level is kept.</summary>
    public int GuaranteeVisits { get; set; }
    public string GuaranteeConditions { get; set; } = "";

    /// <summary>SHA-256 of everything offered, written when it was sent.</summary>
    public string SentSha256 { get; set; } = "";
    public QuotePhase? Phase { get; set; }
    public List<QuoteTier> Tiers { get; set; } = [];
    public List<QuoteAddOn> AddOns { get; set; } = [];
}

/// <summary>One of the choices side by side.</summary>
[Holds(Truth.Fact)]
public sealed class QuoteTier : Record
{
    public int QuoteRevisionId { get; set; }
    public int Position { get; set; }
    public required string Name { get; set; }
    public string Summary { get; set; } = "";

    /// <summary>Taken off this choice's lines: a share or an amount, never both.</summary>
    public decimal DiscountPercent { get; set; }
    public Money DiscountAmount { get; set; }
    public string DiscountReason { get; set; } = "";

    /// <summary>The design this choice stands on; null: the quote's. Only with one of its own do the five below count.</summary>
    public int? SuctionDesignId { get; set; }

    /// <summary>What is done in this choice.</summary>
    public string Scope { get; set; } = "";
    public Money ElectricityPerYear { get; set; }
    public Money HeatCablePerYear { get; set; }
    public Money HouseAirPerYear { get; set; }
    public Money FanReplacement { get; set; }
    public int FanLifeYears { get; set; }
    public List<QuoteLine> Lines { get; set; } = [];
}

/// <summary>A priced line of a tier. Prices are copied from the price book, so that a later change of the book does not reach it.</summary>
[Holds(Truth.Fact)]
public sealed class QuoteLine : Record
{
    public int QuoteTierId { get; set; }
    public int Position { get; set; }
    public int? PriceItemId { get; set; }
    public required string Words { get; set; }
    public decimal Quantity { get; set; } = 1;
    public string Unit { get; set; } = "each";
    public Money UnitPrice { get; set; }
    public Money UnitCost { get; set; }

    /// <summary>Labour in one unit.</summary>
    public int LabourMinutes { get; set; }
    public OfferReason OfferedFor { get; set; }
    public bool Taxable { get; set; }

    public Money Amount => UnitPrice.Times(Quantity);
}

/// <summary>Offered beside the tiers, with its reason.</summary>
[Holds(Truth.Fact)]
public sealed class QuoteAddOn : Record
{
    public int QuoteRevisionId { get; set; }
    public int Position { get; set; }
    public int? PriceItemId { get; set; }
    public required string Words { get; set; }
    public string Reason { get; set; } = "";

    /// <summary>How much of the price book's item is in it.</summary>
    public decimal Quantity { get; set; } = 1;
    public Money Price { get; set; }
    public Money Cost { get; set; }
    public int LabourMinutes { get; set; }
    public OfferReason OfferedFor { get; set; }
    public bool Taxable { get; set; }
    public bool Recommended { get; set; }

    /// <summary>Beside which choices it is offered: a bit for each position, the first the lowest; 0: beside every one.</summary>
    public int Beside { get; set; }

    public static int Bit(int position) => 1 << (position - 1);
}

/// <summary>The secret link under which one customer sees one revision. Only the hash is kept.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TokenHash), IsUnique = true)]
public sealed class QuoteLink : Record
{
    public int QuoteRevisionId { get; set; }

    [NotAudited]
    public required string TokenHash { get; set; }
    public DateTime CreatedAtUtc { get; set; }
    public DateTime ExpiresAtUtc { get; set; }
    public DateTime? RevokedAtUtc { get; set; }
}

/// <summary>Evidence that a revision was accepted: what was shown, chosen and signed, by whom, when, from where.
/// Hash-chained to the one before it; never edited.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(QuoteRevisionId), IsUnique = true)]
public sealed class Acceptance : Record
{
    public int QuoteRevisionId { get; set; }
    public int QuoteTierId { get; set; }

    /// <summary>The design that was chosen with it; null: quoted by hand.</summary>
    public int? SuctionDesignId { get; set; }

    /// <summary>Ids of the chosen add-ons, ascending, comma between.</summary>
    public string AddOnIds { get; set; } = "";

    /// <summary>Ids of the recommended add-ons that were declined knowingly.</summary>
    public string DeclinedAddOnIds { get; set; } = "";

    /// <summary>After the discount.</summary>
    public Money Net { get; set; }
    public Money Discount { get; set; }
    public Money Tax { get; set; }
    public Money Total { get; set; }
    public Money Deposit { get; set; }
    public required string TypedName { get; set; }
    public required string ConsentText { get; set; }
    public required string IntentText { get; set; }

    /// <summary>The second phase agreed to, in words; empty where the quote holds none.</summary>
    public string PhaseText { get; set; } = "";

    /// <summary>Of everything offered: <see cref="QuoteRevision.SentSha256"/>.</summary>
    public string OfferSha256 { get; set; } = "";
    public DateTime AtUtc { get; set; }
    public required string TimeZone { get; set; }
    public string IpAddress { get; set; } = "";
    public string UserAgent { get; set; } = "";
    public int? QuoteLinkId { get; set; }
    /// <summary>The quote exactly as it was shown.</summary>
    public int PdfDocumentId { get; set; }
    public required string PdfSha256 { get; set; }

    /// <summary>The quote with the sheet of acceptance behind it, as it was mailed to the buyer.</summary>
    public int SignedDocumentId { get; set; }
    public required string SignedSha256 { get; set; }

    /// <summary>Last day on which the buyer may cancel a contract signed at home.</summary>
    public DateOnly CancelBy { get; set; }
    public required string PreviousHash { get; set; }
    public required string Hash { get; set; }

    /// <summary>Of the acceptance before it and everything in this one.</summary>
    public string ComputeHash() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001f', PreviousHash,
        Of(QuoteRevisionId), Of(QuoteTierId), Of(SuctionDesignId ?? 0), AddOnIds, DeclinedAddOnIds, Of(Net.Cents), Of(Discount.Cents), Of(Tax.Cents), Of(Total.Cents), Of(Deposit.Cents),
        TypedName, ConsentText, IntentText, PhaseText, OfferSha256, AtUtc.ToString("yyyy-MM-ddTHH:mm:ss.ffffff", CultureInfo.InvariantCulture), TimeZone, IpAddress, UserAgent,
        Of(QuoteLinkId ?? 0), Of(PdfDocumentId), PdfSha256, Of(SignedDocumentId), SignedSha256, CancelBy.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)))));

    private static string Of(long number) => number.ToString(CultureInfo.InvariantCulture);
}
