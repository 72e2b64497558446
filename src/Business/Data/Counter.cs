using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Business.Data;

/// <summary>The last number given out in a series (quotes of 2026, jobs of 2026). Gap-free: taken in the same
/// transaction as the record that bears it.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Series), IsUnique = true)]
public sealed class Counter : Record
{
    public required string Series { get; set; }
    public int Last { get; set; }
}

/// <summary>One sending of a form, so that a double click or a retry acts once.</summary>
[Holds(Truth.Plan)]
[Index(nameof(Key), IsUnique = true)]
public sealed class Submission
{
    public int Id { get; set; }
    public required string Key { get; set; }
    public DateTime AtUtc { get; set; }

    /// <summary>Where the first sending led; empty while it is still at work.</summary>
    public string? LedTo { get; set; }
}
