using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Shop;

/// <summary>Keeps a rule set as the next edition of its key. The same text again is the same edition, taken up again if it was set aside.</summary>
public static class KeepRuleSet
{
    public static Task<RuleSetEdition> RunAsync(OfficeDb db, SitingRuleSet set, DateTime nowUtc, string by) => db.WriteAsync(async () =>
    {
        var last = await db.RuleSets.AsTracking().Where(r => r.Key == set.Id).OrderByDescending(r => r.Edition).FirstOrDefaultAsync();
        var hash = RuleSetText.HashOf(set);
        if (last?.Sha256 == hash) last.SetAside = false;
        else
        {
            last = new RuleSetEdition
            {
                Key = set.Id, Edition = (last?.Edition ?? 0) + 1, Jurisdiction = set.Jurisdiction, Citation = set.Citation, Rules = set.Rules.Count,
                Text = RuleSetText.Write(set), Sha256 = hash, AddedAtUtc = nowUtc, AddedBy = by,
            };
            db.RuleSets.Add(last);
        }

        await db.SaveChangesAsync();
        return last;
    });
}
