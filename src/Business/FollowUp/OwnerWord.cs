using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

public enum OwnerWordKind
{
    BookRetest,
    TestDone,
    NewAddress,
    Sold,
}

/// <summary>What a house owner told the office on their own page. It changes nothing in the records until the office says so.</summary>
[Holds(Truth.Fact)]
[Index(nameof(HouseId))]
[Index(nameof(SettledAtUtc))]
public sealed class OwnerWord : Record
{
    public int HouseId { get; set; }
    public int CustomerId { get; set; }
    public OwnerWordKind Kind { get; set; }
    public DateTime ToldAtUtc { get; set; }

    /// <summary>The day of the test or of the sale.</summary>
    public DateOnly? OnDay { get; set; }
    public decimal? PCiL { get; set; }
    public string Name { get; set; } = "";
    public string Email { get; set; } = "";
    public string Phone { get; set; } = "";
    public string PostalAddress { get; set; } = "";
    public string Words { get; set; } = "";
    public DateTime? SettledAtUtc { get; set; }
    public string SettledBy { get; set; } = "";
    public string SettledHow { get; set; } = "";
}
