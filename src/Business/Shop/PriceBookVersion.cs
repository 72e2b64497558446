using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

/// <summary>The price book as it was from one moment on: what changed in it, and the price of an hour.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(Number), IsUnique = true)]
public sealed class PriceBookVersion : Record
{
    public int Number { get; set; }
    public DateTime AtUtc { get; set; }
    public string By { get; set; } = "";
    public Money LabourPricePerHour { get; set; }
    public Money LabourCostPerHour { get; set; }
    public List<PriceChange> Changes { get; set; } = [];
}

public enum PriceAct
{
    Added,
    Changed,
    Retired,
    BroughtBack,

    /// <summary>The price of an hour changed, and with it that of everything with labor in it.</summary>
    HourChanged,
}

/// <summary>One item of the book before and after a change, priced at the hour of that moment.</summary>
[Holds(Truth.Document, Frozen = true)]
[Index(nameof(PriceItemId))]
public sealed class PriceChange : Record
{
    public int PriceBookVersionId { get; set; }

    /// <summary>Empty for the price of an hour.</summary>
    public int? PriceItemId { get; set; }
    public PriceAct Act { get; set; }
    public string Code { get; set; } = "";
    public string Name { get; set; } = "";
    public Money PriceBefore { get; set; }
    public Money Price { get; set; }
    public Money CostBefore { get; set; }
    public Money Cost { get; set; }

    /// <summary>What else changed, in words.</summary>
    public string Words { get; set; } = "";
}
