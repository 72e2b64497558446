using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Quality;

/// <summary>Hours one worker spent in radon on a day. Kept for twenty years; struck out when wrong, never removed.</summary>
[Holds(Truth.Fact)]
[Index(nameof(StaffMemberId), nameof(Day))]
public sealed class ExposureDay : Record
{
    /// <summary>EPA 402-R-93-078, section 18, from memory.</summary>
    public const int YearsKept = 20;

    public int StaffMemberId { get; set; }
    public DateOnly Day { get; set; }
    public int? HouseId { get; set; }
    public string Where { get; set; } = "";
    public decimal PCiL { get; set; }
    public decimal Hours { get; set; }

    /// <summary>Equilibrium ratio of the decay products; empty where none was measured.</summary>
    public decimal? EquilibriumRatio { get; set; }
    public string HowKnown { get; set; } = "";

    /// <summary>Why the line does not count; empty where it does.</summary>
    public string StruckOut { get; set; } = "";
    public string WrittenBy { get; set; } = "";
    public DateTime WrittenAtUtc { get; set; }
}
