using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

public enum PriceKind
{
    Material,
    Labour,
    Subcontract,
    Permit,
    Travel,
}

public enum PriceRule
{
    /// <summary>Price = cost × (1 + markup).</summary>
    Markup,

    /// <summary>Price as written.</summary>
    Fixed,

    /// <summary>Price = cost ÷ (1 − margin): the margin is that share of the price.</summary>
    Margin,
}

public enum PriceUse
{
    /// <summary>Goes into a tier.</summary>
    Part,

    /// <summary>Offered by itself beside the tiers.</summary>
    AddOn,
}

/// <summary>One line of the price book.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Code), IsUnique = true)]
public sealed class PriceItem : Record
{
    /// <summary>A margin of the whole price would have no price.</summary>
    public const decimal MostMarginPercent = 95;

    public required string Code { get; set; }
    public required string Name { get; set; }
    public PriceKind Kind { get; set; }
    public PriceUse Use { get; set; }

    /// <summary>"each", "ft", "hour".</summary>
    public string Unit { get; set; } = "each";
    public Money Cost { get; set; }
    public PriceRule Rule { get; set; }

    /// <summary>The markup, or the margin where the rule is that.</summary>
    public decimal MarkupPercent { get; set; }
    public Money FixedPrice { get; set; }
    public int LabourMinutes { get; set; }
    public bool Taxable { get; set; }

    /// <summary>For an add-on: why one would want it, in the house owner's words.</summary>
    public string Reason { get; set; } = "";

    /// <summary>What the design counts it by.</summary>
    public TakenBy TakenBy { get; set; }

    /// <summary>The pipe size it fits, a key of the pipe sizes ("4in"); empty: every size.</summary>
    public string PipeSize { get; set; } = "";

    /// <summary>The one fan it is taken with; empty: every fan.</summary>
    public string FanModel { get; set; } = "";

    /// <summary>The tier from which on it is part of the price (1 to 3); 0: of none.</summary>
    public int FromTier { get; set; }

    /// <summary>What has to be found out of the house for it to be wanted.</summary>
    public OfferReason OfferedFor { get; set; }

    /// <summary>From which computed number on it is recommended, in the unit that its reason names; empty: as the program judges.</summary>
    public decimal? RecommendedFrom { get; set; }

    /// <summary>When it is included, offered or not offered, in lines as <see cref="Offers.ReadOfferRule"/> reads them; empty: as for every item wanted for the same.</summary>
    public string OwnRule { get; set; } = "";
    public bool Retired { get; set; }

    /// <summary>Takes over every value of another version of this item, but not its code.</summary>
    public void TakeFrom(PriceItem other)
    {
        (Name, Kind, Use, Unit, Cost, Rule) = (other.Name, other.Kind, other.Use, other.Unit, other.Cost, other.Rule);
        (MarkupPercent, FixedPrice, LabourMinutes, Taxable, Reason, Retired) =
            (other.MarkupPercent, other.FixedPrice, other.LabourMinutes, other.Taxable, other.Reason, other.Retired);
        (TakenBy, PipeSize, FanModel, FromTier, OfferedFor, RecommendedFrom, OwnRule) =
            (other.TakenBy, other.PipeSize, other.FanModel, other.FromTier, other.OfferedFor, other.RecommendedFrom, other.OwnRule);
    }

    /// <summary>Price of one unit, its labour at the given hourly price included.</summary>
    public Money PriceAt(Money labourPricePerHour) => Bare + labourPricePerHour.Times(LabourMinutes / 60m);

    private Money Bare => Rule switch
    {
        PriceRule.Fixed => FixedPrice,
        PriceRule.Margin => Cost.Times(100m / (100m - Math.Min(MarkupPercent, MostMarginPercent))),
        _ => Cost.Times(1 + MarkupPercent / 100m),
    };

    /// <summary>What one unit costs the company, its labour at the given hourly cost included.</summary>
    public Money CostAt(Money labourCostPerHour) => Cost + labourCostPerHour.Times(LabourMinutes / 60m);
}
