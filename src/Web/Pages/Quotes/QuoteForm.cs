using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Quotes;

/// <summary>A draft as it is typed. A line left empty is not kept.</summary>
public sealed class QuoteForm
{
    public sealed class Line
    {
        public int Id { get; set; }
        public string? Words { get; set; }
        public string? Quantity { get; set; }
        public string? Unit { get; set; }
        public string? Price { get; set; }
        public string? Cost { get; set; }
        public bool Taxable { get; set; }
    }

    public sealed class Tier
    {
        public int Id { get; set; }
        public string? Name { get; set; }
        public string? Summary { get; set; }

        public string? DiscountPercent { get; set; }
        public string? DiscountAmount { get; set; }
        public string? DiscountReason { get; set; }

        /// <summary>Only where it stands on a design of its own.</summary>
        public string? Scope { get; set; }
        public string? ElectricityPerYear { get; set; }
        public string? HeatCablePerYear { get; set; }
        public string? HouseAirPerYear { get; set; }
        public string? FanReplacement { get; set; }
        public string? FanLifeYears { get; set; }

        /// <summary>An item of the price book to be added at its price of today.</summary>
        public string? AddItem { get; set; }
        public List<Line> Lines { get; set; } = [];
    }

    public sealed class AddOn
    {
        public int Id { get; set; }
        public string? Words { get; set; }
        public string? Reason { get; set; }
        public string? Price { get; set; }
        public string? Cost { get; set; }
        public bool Taxable { get; set; }
        public bool Recommended { get; set; }

        /// <summary>Beside which choices: the sum of their bits; 0: every one.</summary>
        public string? Beside { get; set; }
    }

    /// <summary>The second phase; none where neither its work nor its price is written.</summary>
    public sealed class SecondPhase
    {
        public string? Level { get; set; } = "4.0";
        public RadonUnit Unit { get; set; }
        public string? Scope { get; set; }
        public string? Price { get; set; }
        public string? Cost { get; set; }
        public bool Taxable { get; set; }
        public string? ValidUntil { get; set; }
    }

    public string? Answers { get; set; }
    public string? Introduction { get; set; }
    public string? Scope { get; set; }
    public string? TimeNeeded { get; set; }
    public string? Promise { get; set; }
    public string? OwnersPart { get; set; }
    public string? Cautions { get; set; }
    public string? Terms { get; set; }
    public string? CancellationNotice { get; set; }
    public string? NoCancelNoticeBecause { get; set; }
    public string? TaxPercent { get; set; }
    public string? DepositPercent { get; set; }
    public string? ValidUntil { get; set; }
    public string? ElectricityPerYear { get; set; }
    public string? HeatCablePerYear { get; set; }
    public string? HouseAirPerYear { get; set; }
    public string? FanReplacement { get; set; }
    public string? FanLifeYears { get; set; }
    public string? OwningYears { get; set; }
    public string? RecommendedTier { get; set; }
    public string? WhyRecommended { get; set; }
    public string? AddAddOn { get; set; }
    public string? DiscountPercent { get; set; }
    public string? DiscountAmount { get; set; }
    public string? DiscountReason { get; set; }
    public string? GuaranteePCiL { get; set; }
    public string? GuaranteeMonths { get; set; }
    public string? GuaranteeVisits { get; set; }
    public string? GuaranteeConditions { get; set; }
    public SecondPhase Phase { get; set; } = new();
    public List<Tier> Tiers { get; set; } = [];
    public List<AddOn> AddOns { get; set; } = [];

    /// <summary>The lines in a sentence, so that two people's lines can be held against each other.</summary>
    public string LinesInWords => string.Join("; ", Tiers.SelectMany(t => t.Lines.Where(l => !string.IsNullOrWhiteSpace(l.Words)).Select(l => $"{t.Name}: {l.Words?.Trim()} {l.Quantity?.Trim()} × ${l.Price?.Trim()}"))
        .Concat(AddOns.Where(a => !string.IsNullOrWhiteSpace(a.Words)).Select(a => $"{a.Words?.Trim()} ${a.Price?.Trim()}")));

    /// <summary>So many lines of each choice are on the page at once: a quote may have ten thousand.</summary>
    public const int LinesAtOnce = 100;

    /// <param name="page">Which hundred of the lines; the first is 1.</param>
    public static QuoteForm Of(QuoteRevision r, int page = 1) => new()
    {
        Answers = r.Answers,
        Introduction = r.Introduction,
        Scope = r.Scope,
        TimeNeeded = r.TimeNeeded,
        Promise = r.Promise,
        OwnersPart = r.OwnersPart,
        Cautions = r.Cautions,
        Terms = r.Terms,
        CancellationNotice = r.CancellationNotice,
        NoCancelNoticeBecause = r.NoCancelNoticeBecause,
        TaxPercent = Plain(r.TaxPercent),
        DepositPercent = Plain(r.DepositPercent),
        ValidUntil = Plain(r.ValidUntil),
        ElectricityPerYear = OrEmpty(r.ElectricityPerYear),
        HeatCablePerYear = OrEmpty(r.HeatCablePerYear),
        HouseAirPerYear = OrEmpty(r.HouseAirPerYear),
        FanReplacement = OrEmpty(r.FanReplacement),
        FanLifeYears = r.FanLifeYears == 0 ? "" : Plain((decimal)r.FanLifeYears),
        OwningYears = Plain((decimal)CostOfOwning.YearsOf(r)),
        RecommendedTier = Plain((decimal)r.RecommendedTier),
        WhyRecommended = r.WhyRecommended,
        DiscountPercent = r.DiscountPercent == 0 ? "" : Plain(r.DiscountPercent),
        DiscountAmount = OrEmpty(r.DiscountAmount),
        DiscountReason = r.DiscountReason,
        GuaranteePCiL = Plain(r.GuaranteePCiL),
        GuaranteeMonths = Plain((decimal)r.GuaranteeMonths),
        GuaranteeVisits = Plain((decimal)r.GuaranteeVisits),
        GuaranteeConditions = r.GuaranteeConditions,
        Phase = r.Phase is { } phase ? Of(phase) : new(),
        Tiers = [.. r.Tiers.OrderBy(t => t.Position).Select(t => Of(t, page))],
        AddOns = [.. r.AddOns.OrderBy(a => a.Position).ThenBy(a => a.Id).Select(Of), new AddOn()],
    };

    private static string OrEmpty(Money amount) => amount == Money.Zero ? "" : Plain(amount);

    private static SecondPhase Of(QuotePhase p) => new()
    {
        Level = Plain(p.Level),
        Unit = p.Unit,
        Scope = p.Scope,
        Price = OrEmpty(p.Price),
        Cost = OrEmpty(p.Cost),
        Taxable = p.Taxable,
        ValidUntil = Plain(p.ValidUntil),
    };

    private static Tier Of(QuoteTier t, int page) => new()
    {
        Id = t.Id,
        Name = t.Name,
        Summary = t.Summary,
        DiscountPercent = t.DiscountPercent == 0 ? "" : Plain(t.DiscountPercent),
        DiscountAmount = OrEmpty(t.DiscountAmount),
        DiscountReason = t.DiscountReason,
        Scope = t.Scope,
        ElectricityPerYear = OrEmpty(t.ElectricityPerYear),
        HeatCablePerYear = OrEmpty(t.HeatCablePerYear),
        HouseAirPerYear = OrEmpty(t.HouseAirPerYear),
        FanReplacement = OrEmpty(t.FanReplacement),
        FanLifeYears = t.FanLifeYears == 0 ? "" : Plain((decimal)t.FanLifeYears),
        Lines = [.. t.Lines.OrderBy(l => l.Position).ThenBy(l => l.Id).Skip((Math.Clamp(page, 1, 10_000) - 1) * LinesAtOnce).Take(LinesAtOnce).Select(Of), new Line(), new Line()],
    };

    private static Line Of(QuoteLine l) => new()
    {
        Id = l.Id,
        Words = l.Words,
        Quantity = Plain(l.Quantity),
        Unit = l.Unit,
        Price = Plain(l.UnitPrice),
        Cost = Plain(l.UnitCost),
        Taxable = l.Taxable,
    };

    private static AddOn Of(QuoteAddOn a) => new()
    {
        Id = a.Id,
        Words = a.Words,
        Reason = a.Reason,
        Price = Plain(a.Price),
        Cost = Plain(a.Cost),
        Taxable = a.Taxable,
        Recommended = a.Recommended,
        Beside = Plain((decimal)a.Beside),
    };
}
