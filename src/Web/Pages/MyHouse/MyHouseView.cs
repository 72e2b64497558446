using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Pages.MyHouse;

/// <summary>What the house owner's page shows: the least that is needed to act.</summary>
public sealed record MyHouseView(string Company, string Phone, string Street, string Email, DateOnly Today)
{
    public sealed record Due(string What, DateOnly On, string Because);

    public IReadOnlyList<Due> Ahead { get; private init; } = [];
    public string LastTest { get; private init; } = "";
    public bool NoUpkeep { get; private init; }
    public bool NoOffers { get; private init; }

    /// <summary>"w…@wren.example": whose link it is may be somebody else's eyes by now.</summary>
    public string MaskedEmail => Email.Length == 0 ? "" : Email[..1] + "…" + Email[Email.LastIndexOf('@')..];

    public static async Task<MyHouseView> LoadAsync(OfficeDb db, FoundOwner owner, DateTime nowUtc)
    {
        var company = await db.Company.AsNoTracking().Select(c => new { c.Name, c.Phone, c.TimeZone }).SingleAsync();
        var house = await db.Houses.Where(h => h.Id == owner.HouseId).Select(h => new { h.Street, h.TimeZone }).SingleAsync();
        var zone = HouseTime.Zone(house.TimeZone, company.TimeZone);
        var today = HouseTime.DayOf(nowUtc, zone);
        var email = await db.Customers.Where(c => c.Id == owner.CustomerId).Select(c => c.Email).SingleAsync();
        var until = today.AddMonths(24);
        var open = await db.Reminders.AsNoTracking()
            .Where(r => r.HouseId == owner.HouseId && r.DueOn <= until && (r.State == ReminderState.Planned || r.State == ReminderState.Queued || (r.State == ReminderState.Sent && r.DueOn >= today.AddDays(-60))))
            .OrderBy(r => r.DueOn).ThenBy(r => r.Id).Take(40)
            .Select(r => new Due(db.ReminderRules.Where(x => x.Code == r.RuleCode).Select(x => x.Name).FirstOrDefault() ?? "", r.DueOn, r.Because)).ToListAsync();
        var last = await db.RadonTests.AsNoTracking().Where(t => t.HouseId == owner.HouseId && t.EndedAtUtc != null && t.DecidingPCiL != null && t.Outcome != TestOutcome.NotJudged && t.Outcome != TestOutcome.NotValid)
            .OrderByDescending(t => t.EndedAtUtc).Select(t => new { t.EndedAtUtc, t.DecidingPCiL }).FirstOrDefaultAsync();
        var address = MailAddress.KeyOf(email);
        var stopped = email.Length == 0 ? [] : await db.Suppressions.Where(s => s.Address == address).Select(s => s.Class).ToListAsync();
        return new(company.Name, company.Phone, house.Street, email, today)
        {
            // Each thing once: the next time it is due.
            Ahead = [.. open.DistinctBy(d => d.What).Take(6)],
            LastTest = last is null ? "" : $"{Math.Round(last.DecidingPCiL!.Value, 1, MidpointRounding.AwayFromZero):0.0} pCi/L on {HouseTime.Show(HouseTime.DayOf(last.EndedAtUtc!.Value, zone))}",
            NoUpkeep = stopped.Contains(null) || stopped.Contains(MailClass.Upkeep),
            NoOffers = stopped.Contains(null) || stopped.Contains(MailClass.Commercial),
        };
    }
}
