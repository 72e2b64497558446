using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quotes.Phases;

/// <summary>A visit made at no charge because the level that was guaranteed was not kept.</summary>
[Holds(Truth.Fact)]
[Index(nameof(AcceptanceId))]
[Index(nameof(HouseId))]
public sealed class ReturnVisit : Record
{
    public int HouseId { get; set; }
    public int AcceptanceId { get; set; }
    public DateOnly VisitedOn { get; set; }
    public required string Done { get; set; }
    public string EnteredBy { get; set; } = "";
}
