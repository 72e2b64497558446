using System.Globalization;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Business.Shop;

/// <summary>A rule set to judge by. <paramref name="Own"/>: the text the office wrote itself; null for a set of the program.</summary>
public sealed record OfferedRuleSet(string Key, string? Own);

/// <summary>The siting rules that can be chosen: those of the program, and the office's own beside them or in their place.</summary>
public static class OfferRuleSets
{
    private const string WithoutState = "us-epa-1994";
    private static readonly ConditionalWeakTable<OfficeDb, IReadOnlyList<RuleSetEdition>> Read = [];

    /// <summary>As options of a form; the first stands for the rules of the house's state.</summary>
    public static async Task<IReadOnlyList<(string Value, string Words)>> ChoicesAsync(OfficeDb db)
    {
        var own = await NewestAsync(db);
        return
        [
            ("", "those of the house's state"),
            .. SitingRuleSets.All.Where(s => !own.Any(o => o.Key == s.Id && !o.SetAside)).Select(s => (s.Id, $"{s.Jurisdiction}: {s.Citation}")),
            .. own.Where(o => !o.SetAside).Select(o => (o.Key, string.Create(CultureInfo.InvariantCulture, $"{o.Jurisdiction}: {o.Citation} (the office’s own, edition {o.Edition})"))),
        ];
    }

    /// <summary>The newest edition of each of the office's own sets. Read once for each opened database: a page asks for the choices and for the chosen one.</summary>
    public static async Task<IReadOnlyList<RuleSetEdition>> NewestAsync(OfficeDb db)
    {
        if (Read.TryGetValue(db, out var known)) return known;
        var newest = await db.RuleSets.AsNoTracking().Where(r => !db.RuleSets.Any(later => later.Key == r.Key && later.Edition > r.Edition)).OrderBy(r => r.Key).ToListAsync();
        Read.AddOrUpdate(db, newest);
        return newest;
    }

    /// <summary>The rules of a chosen key; with none chosen those of the state, and where the state has none, the federal guidance.</summary>
    public static async Task<OfferedRuleSet> ForAsync(OfficeDb db, string chosen, string state)
    {
        var ofState = $"us-{state.Trim().ToLowerInvariant()}";
        var own = (await NewestAsync(db)).ToList();
        foreach (var key in new[] { chosen, ofState, WithoutState })
        {
            if (own.Find(r => r.Key == key && !r.SetAside) is { } current) return new(key, current.Text);
            if (SitingRuleSets.All.Any(s => s.Id == key)) return new(key, null);
            if (key == chosen && own.Find(r => r.Key == key) is { } earlier) return new(key, earlier.Text);
        }

        return new(WithoutState, null);
    }
}
