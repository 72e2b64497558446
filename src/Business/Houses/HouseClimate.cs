using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Houses;

/// <summary>The daily weather record a house's winter is foreseen from, as it was read, from the first of its last whole winters to the last.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId), IsUnique = true)]
public sealed class HouseClimate : Record
{
    public int HouseId { get; set; }

    /// <summary>The station, in the words of whoever read it in.</summary>
    public string Station { get; set; } = "";
    public required string FileName { get; set; }

    /// <summary>The unit the file was written in, in words.</summary>
    public required string Unit { get; set; }
    public DateOnly FirstDay { get; set; }
    public DateOnly LastDay { get; set; }
    public int Winters { get; set; }
    public int FilledDays { get; set; }

    /// <summary>What was left out or mended, one sentence a line.</summary>
    public string Problems { get; set; } = "";
    public DateTime ReadAtUtc { get; set; }
    public required string ReadBy { get; set; }

    /// <summary>Set aside: the made-up winter is used instead, and the record stays.</summary>
    public bool SetAside { get; set; }

    /// <summary>"2024-01-05,-15,-5" a day, °C, lowest and highest, in order.</summary>
    [NotAudited]
    public required string Days { get; set; }
    public required string DaysSha256 { get; set; }
}
