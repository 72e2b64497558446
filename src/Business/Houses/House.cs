using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Houses;

public enum BuildingKind
{
    SingleFamily,
    TwoFamily,
    RowHouse,
    Apartments,
    Office,
    School,
    OtherCommercial,
}

public enum SumpKind
{
    None,
    Open,
    Sealed,
}

/// <summary>The centre of the records: a building on its ground.</summary>
[Holds(Truth.Fact)]
[Index(nameof(AddressKey))]
[Index(nameof(Search))]
public sealed class House : Record
{
    public required string Street { get; set; }
    public string Street2 { get; set; } = "";
    public required string City { get; set; }
    public string County { get; set; } = "";
    public required string State { get; set; }
    public required string Zip { get; set; }
    public string TimeZone { get; set; } = "";

    public BuildingKind Building { get; set; }
    public int? YearBuilt { get; set; }
    public double StoreysAboveGrade { get; set; } = 1;

    /// <summary>Years the owner expects the building to stand or be used; empty: not said.</summary>
    public int? YearsInUse { get; set; }
    public SumpKind Sump { get; set; }
    public string Heating { get; set; } = "";
    public string WaterSupply { get; set; } = "";
    public bool VermiculiteSuspected { get; set; }
    public bool UnderTrees { get; set; }

    /// <summary>Birds, squirrels or wasps that nest in openings.</summary>
    public bool AnimalsTrouble { get; set; }

    /// <summary>Elevation where it differs from the company's, metres.</summary>
    public double? ElevationM { get; set; }

    /// <summary>Design winter temperature where it differs from the company's, °C.</summary>
    public double? DesignWinterC { get; set; }

    /// <summary>Footings under the slab on the floor plan: one line each, its points "x,y" in metres.</summary>
    public string FootingsM { get; set; } = "";

    /// <summary>Where the sump pit is on the floor plan, metres across and up; empty: not drawn.</summary>
    public double? SumpXM { get; set; }
    public double? SumpYM { get; set; }
    public string HowTheyFoundUs { get; set; } = "";
    public string Notes { get; set; } = "";
    public DateTime AskedAtUtc { get; set; }
    public string AddressKey { get; set; } = "";
    public string Search { get; set; } = "";

    public List<FoundationArea> Areas { get; set; } = [];
    public List<Appliance> Appliances { get; set; } = [];
    public List<EarlierTest> EarlierTests { get; set; } = [];
    public List<HouseOwner> Owners { get; set; } = [];

    public string AddressLine => $"{Street}{(Street2 == "" ? "" : ", " + Street2)}, {City}, {State} {Zip}";

    public void MakeSearchable()
    {
        AddressKey = SearchText.AddressKey(Street, Zip);
        Search = SearchText.Of(Street, Street2, City, County, State, Zip);
    }
}

/// <summary>Who owned the house from when to when. Houses are sold; the system stays.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
[Index(nameof(CustomerId))]
public sealed class HouseOwner : Record
{
    public int HouseId { get; set; }
    public House? House { get; set; }
    public int CustomerId { get; set; }
    public Customer? Customer { get; set; }
    public DateOnly FromDay { get; set; }
    public DateOnly? ToDay { get; set; }
}

public enum FoundationKind
{
    Basement,
    SlabOnGrade,
    CrawlSpace,
    GarageSlab,
}

public enum UnderSlab
{
    NotKnown,
    Gravel,
    Sand,
    TightSoil,
    Drainboard,
}

/// <summary>A part of the house that touches the ground.</summary>
[Holds(Truth.Fact)]
public sealed class FoundationArea : Record
{
    public int HouseId { get; set; }
    public required string Name { get; set; }
    public FoundationKind Kind { get; set; }
    public double FloorM2 { get; set; }
    public UnderSlab Under { get; set; }
    public bool FootingDivides { get; set; }

    /// <summary>Its corners on the floor plan in order, "x,y x,y …" in metres; empty: not drawn.</summary>
    public string CornersM { get; set; } = "";
}

public enum Draft
{
    Natural,
    FanAssisted,
    SealedCombustion,
    Electric,
}

/// <summary>A thing that burns fuel or blows air: what a suction fan may backdraft.</summary>
[Holds(Truth.Fact)]
public sealed class Appliance : Record
{
    public int HouseId { get; set; }
    public required string Name { get; set; }
    public Draft Draft { get; set; }
    public string Place { get; set; } = "";
}

/// <summary>A radon test made before the office came: what the work answers.</summary>
[Holds(Truth.Fact)]
public sealed class EarlierTest : Record
{
    public int HouseId { get; set; }
    public decimal PCiL { get; set; }
    public string Room { get; set; } = "";
    public string Device { get; set; } = "";
    public DateOnly? StartedOn { get; set; }
    public DateOnly? EndedOn { get; set; }
    public string MadeBy { get; set; } = "";
}
