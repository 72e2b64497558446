using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>Why hours are missing inside a monitor's record.</summary>
public enum GapCause
{
    NotSaid,
    DeviceRecordedNothing,
    TakenOut,
}

/// <summary>The hours read from a continuous monitor's file for one device of a test. The file itself is kept beside it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(TestDeviceId), IsUnique = true)]
public sealed class MonitorRecord : Record
{
    public int TestDeviceId { get; set; }
    public int StoredDocumentId { get; set; }

    /// <summary>Start of the first hour.</summary>
    public DateTime FromUtc { get; set; }

    /// <summary>pCi/L hour by hour, a comma between; nothing where there is no reading.</summary>
    [NotAudited]
    public string HoursPCiL { get; set; } = "";
    public GapCause Gaps { get; set; }

    /// <summary>How the file was read, as JSON: columns, clock, unit.</summary>
    public string Habit { get; set; } = "";

    /// <summary>Hours dropped at the start of the test.</summary>
    public int DropFirstHours { get; set; } = 4;
    public bool DeviceCorrectsStart { get; set; }

    /// <summary>What was found while reading, a sentence a line.</summary>
    public string Remarks { get; set; } = "";
    public DateTime ReadAtUtc { get; set; }
    public string ReadBy { get; set; } = "";
}
