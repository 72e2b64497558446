using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Customers;

/// <summary>Who owns a house, as typed: a customer on record, looked for by some words, or a new one.</summary>
public sealed class OwnerForm
{
    public sealed record Match(int Id, string Name, string Reach, int Houses);

    public string? Find { get; set; }
    public int CustomerId { get; set; }
    public bool NewEvenSo { get; set; }
    public CustomerForm New { get; set; } = new();

    // Not posted: what the page shows.
    public IReadOnlyList<Match> Matches { get; private set; } = [];
    public bool Looked { get; private set; }
    public IReadOnlyList<AlikeCustomer> Alike { get; set; } = [];

    /// <summary>The customer meant; new ones are not saved yet. Null where it was refused.</summary>
    public async Task<Customer?> ReadAsync(OfficeDb db, FormReading read)
    {
        if (CustomerId == 0)
        {
            var customer = new Customer { Name = "" };
            New.Write(customer, read, nameof(New) + ".");
            return customer;
        }

        var known = await db.Customers.FindAsync(CustomerId);
        if (known is null) read.Refuse(nameof(CustomerId), "This customer is no longer on record. Look again or write a new one.");
        return known;
    }

    /// <summary>Looks up what the search box asks for, and the customer already chosen.</summary>
    public async Task LookAsync(OfficeDb db)
    {
        Looked = SearchWords.Of(Find).Count > 0;
        if (!Looked && CustomerId == 0) return;
        var asked = db.Customers.AsNoTracking();
        asked = Looked ? asked.Where(c => c.Id == CustomerId).Union(asked.Matching(Find)) : asked.Where(c => c.Id == CustomerId);
        Matches = [.. (await asked.OrderBy(c => c.Id == CustomerId ? 0 : 1).ThenBy(c => c.Name).ThenBy(c => c.Id).Take(12)
            .Select(c => new { c.Id, c.Name, c.Phone, c.Email, Houses = db.HouseOwners.Count(o => o.CustomerId == c.Id && o.ToDay == null) }).ToListAsync())
            .Select(c => new Match(c.Id, c.Name, string.Join(", ", new[] { c.Phone, c.Email }.Where(x => x.Length > 0)), c.Houses))];
        if (Matches.All(m => m.Id != CustomerId)) CustomerId = 0;
    }
}
