using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Houses;

/// <summary>Something was done to the house after which its radon is to be measured again: an addition, a new furnace, new windows.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
public sealed class HouseChange : Record
{
    public int HouseId { get; set; }
    public DateOnly OnDay { get; set; }
    public required string Words { get; set; }
}
