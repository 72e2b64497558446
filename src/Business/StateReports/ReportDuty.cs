using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports;

/// <summary>The office reports under a profile, from a day on.</summary>
[Holds(Truth.Fact)]
[Index(nameof(ProfileCode), IsUnique = true)]
public sealed class ReportDuty : Record
{
    public required string ProfileCode { get; set; }

    /// <summary>First day whose systems are reported here; those before were reported otherwise.</summary>
    public DateOnly StartsOn { get; set; }

    /// <summary>The profile's state as it is now, so that what is open can be asked for in one statement.</summary>
    public string State { get; set; } = "";

    /// <summary>The company's number with this state; empty: the one on the company's page.</summary>
    public string CompanyNumber { get; set; } = "";
    public string SignedBy { get; set; } = "";

    /// <summary>No longer reported under; what was frozen stays.</summary>
    public bool Ended { get; set; }
}
