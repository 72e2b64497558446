using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Systems;

/// <summary>What is foreseen of a system and measured when it is started.</summary>
public enum ForeseenNumber
{
    StartUpSuction,
    HoleSuction,
    Watts,
}

/// <summary>The company's own correction, learned from its jobs: switched on by the owner with a reason, never by itself. It stands
/// beside a foreseen number and does not change it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Of))]
public sealed class OwnCorrection : Record
{
    public ForeseenNumber Of { get; set; }

    /// <summary>Measured over foreseen, the median when it was switched on.</summary>
    public double Ratio { get; set; }
    public int Readings { get; set; }
    public required string Reason { get; set; }
    public DateTime OnAtUtc { get; set; }
    public required string OnBy { get; set; }
    public DateTime? OffAtUtc { get; set; }
    public string OffBy { get; set; } = "";
}
