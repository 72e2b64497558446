using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Customers;

/// <summary>A customer on record who may be the one just typed, and why.</summary>
public sealed record AlikeCustomer(int Id, string Name, string Why);

public static class FindCustomers
{
    public static IQueryable<Customer> Matching(this IQueryable<Customer> customers, string? find)
    {
        foreach (var (word, digits) in SearchWords.Of(find))
            customers = customers.Where(c => c.Search.Contains(word) || c.Search.Contains(digits));
        return customers;
    }

    /// <summary>Customers with the same e-mail address, phone number or name.</summary>
    public static async Task<IReadOnlyList<AlikeCustomer>> AlikeAsync(OfficeDb db, Customer typed)
    {
        var (email, name) = (SearchText.Of(typed.Email), SearchText.Of(typed.Name));
        var phones = new[] { typed.Phone, typed.OtherPhone }.Select(SearchWords.PhoneDigits).Where(p => p.Length >= 7).ToList();
        var (first, second) = (phones.FirstOrDefault() ?? "", phones.Skip(1).FirstOrDefault() ?? "");
        var near = await db.Customers.AsNoTracking()
            .Where(c => c.Id != typed.Id && ((email != "" && c.Search.Contains(email))
                || (name != "" && (c.Search == name || c.Search.StartsWith(name + " ")))
                || (first != "" && c.Search.Contains(first)) || (second != "" && c.Search.Contains(second))))
            .OrderBy(c => c.Id).Take(40).Select(c => new { c.Id, c.Name, c.Email, c.Phone, c.OtherPhone }).ToListAsync();
        return [.. from c in near
                   let same = new[]
                   {
                       email != "" && string.Equals(c.Email, typed.Email, StringComparison.OrdinalIgnoreCase) ? "e-mail address" : null,
                       phones.Contains(SearchWords.PhoneDigits(c.Phone)) || phones.Contains(SearchWords.PhoneDigits(c.OtherPhone)) ? "phone number" : null,
                       SearchText.Of(c.Name) == name ? "name" : null,
                   }.OfType<string>().ToList()
                   where same.Count > 0
                   select new AlikeCustomer(c.Id, c.Name, "same " + string.Join(" and ", same))];
    }
}
