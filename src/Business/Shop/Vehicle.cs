using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

/// <summary>A van or truck that is booked like a person.</summary>
[Holds(Truth.Fact)]
public sealed class Vehicle : Record
{
    public required string Name { get; set; }
    public string Plate { get; set; } = "";
    public bool Retired { get; set; }
}
