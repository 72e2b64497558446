using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>A reminder put into words for the house's present owner, or the reason why it cannot be mailed.</summary>
public sealed record ReminderLetter(Letter? Letter, string WhyNot)
{
    /// <param name="HouseId">0: the office itself.</param>
    public sealed record Reader(int HouseId, int CustomerId, string TimeZone, string House, string Name, string Email, string Tag, string Phone, string PostalAddress)
    {
        public static Reader Office(CompanyProfile company) =>
            new(0, 0, company.TimeZone, "", company.Name.Length > 0 ? company.Name : "The office", company.Email, "", company.Phone, "");
    }

    /// <summary>Who is written to about the houses of these reminders, looked up some hundreds at a time; number 0 is the office itself.</summary>
    public static async Task<Dictionary<int, Reader>> ReadersAsync(OfficeDb db, IEnumerable<int?> houseIds, CompanyProfile company, CancellationToken cancel = default)
    {
        var readers = new Dictionary<int, Reader> { [0] = Reader.Office(company) };
        foreach (var ids in houseIds.OfType<int>().Distinct().Chunk(DueReminder.OnAPage))
            foreach (var (id, reader) in await ReadersAsync(db, db.Houses.Where(h => ids.Contains(h.Id)), cancel)) readers[id] = reader;
        return readers;
    }

    /// <summary>Who is written to about these houses: the present owners.</summary>
    public static async Task<Dictionary<int, Reader>> ReadersAsync(OfficeDb db, IQueryable<House> houses, CancellationToken cancel = default)
    {
        // As a join by the owners' house: "the first of each house" would number the owners of all houses.
        var read = await houses.AsNoTracking().SelectMany(
            h => h.Owners.Where(o => o.ToDay == null && !db.HouseOwners.Any(later => later.HouseId == o.HouseId && later.ToDay == null && (later.FromDay > o.FromDay || (later.FromDay == o.FromDay && later.Id > o.Id)))).DefaultIfEmpty(),
            (h, o) => new
            {
                h.Id,
                h.TimeZone,
                h.Street,
                h.Street2,
                h.City,
                h.State,
                h.Zip,
                CustomerId = (int?)o!.CustomerId,
                o.Customer!.Name,
                o.Customer.ContactName,
                o.Customer.Email,
                o.Customer.Phone,
                o.Customer.MailingAddress,
                Tag = db.Systems.Where(s => s.HouseId == h.Id).OrderByDescending(s => s.ActivatedAtUtc).Select(s => s.TagNumber).FirstOrDefault(),
            }).ToListAsync(cancel);
        return read.ToDictionary(x => x.Id, x => new Reader(
            x.Id, x.CustomerId ?? 0, x.TimeZone, $"{x.Street}, {x.City}", x.ContactName is { Length: > 0 } contact ? contact : x.Name ?? "", x.Email ?? "", x.Tag ?? "",
            x.Phone ?? "", x.MailingAddress is { Length: > 0 } elsewhere ? elsewhere : $"{x.Street}{(x.Street2.Length == 0 ? "" : ", " + x.Street2)}, {x.City}, {x.State} {x.Zip}"));
    }

    public static ReminderLetter Of(Reminder reminder, ReminderRule rule, Reader reader, CompanyProfile company)
    {
        var values = Values(reminder.DueOn, reminder.Because, reader, company);
        var missing = ReminderText.Missing(rule.Subject + rule.Body, values);
        if (rule.Channel is ReminderChannel.Letter) return new(null, "the rule says by letter");
        if (rule.Channel is ReminderChannel.Phone) return new(null, "the rule says by phone");
        if (reader.Email.Length == 0) return new(null, "no e-mail address");
        if (!MailAddress.IsUsable(reader.Email)) return new(null, $"“{reader.Email}” is not a usable e-mail address");
        if (missing.Count > 0) return new(null, $"the text needs {string.Join(" and ", missing.Select(f => ReminderText.Fields.GetValueOrDefault(f, f)))}, which is empty");
        return new(Of([new(reminder, rule)], reader, company), "");
    }

    /// <summary>Several of one house and one class, each of which may be mailed, in one letter.</summary>
    public static Letter Of(IReadOnlyList<RuledReminder> said, Reader reader, CompanyProfile company)
    {
        var words = GatheredWords.Of(said, reader, company);
        return new(words.Key, ClassOf(said[0].Rule), reader.Email, reader.Name, words.Subject, words.Text) { HouseId = said[0].Reminder.HouseId, Automatic = true, Heads = words.Heads };
    }

    public static ReminderText.Values Values(DateOnly dueOn, string because, Reader reader, CompanyProfile company) =>
        new(reader.Name, reader.House, HouseTime.Show(dueOn), because, reader.Tag, company.Name, company.Phone);

    /// <summary>A message that only says what is due for a system bought from us concerns its safety (15 USC 7702(17)(A)(ii)); as soon
    /// as the rule offers paid work it is commercial. Both carry the postal address and the opt-out. What the office writes to itself is neither.</summary>
    public static MailClass ClassOf(ReminderRule rule) =>
        rule.Channel == ReminderChannel.Office ? MailClass.Work : rule.Commercial ? MailClass.Commercial : MailClass.Upkeep;
}
