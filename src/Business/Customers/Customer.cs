using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Customers;

public enum CustomerKind
{
    Person,
    Business,
}

/// <summary>A person or business the office deals with. Houses are owned for a period; see HouseOwner.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Search))]
[Index(nameof(Email))]
public sealed class Customer : Record
{
    public CustomerKind Kind { get; set; }
    public required string Name { get; set; }

    /// <summary>Whom to ask for at a business.</summary>
    public string ContactName { get; set; } = "";
    public string Email { get; set; } = "";
    public string Phone { get; set; } = "";
    public string OtherPhone { get; set; } = "";

    /// <summary>Where letters go, when not to the house.</summary>
    public string MailingAddress { get; set; } = "";
    public string Notes { get; set; } = "";
    public string Search { get; set; } = "";

    public void MakeSearchable() => Search = SearchText.Of(Name, ContactName, Email, Digits(Phone), Digits(OtherPhone));

    private static string Digits(string phone) => new([.. phone.Where(char.IsAsciiDigit)]);
}
