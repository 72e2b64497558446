using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.StateReports.Profiles;

/// <param name="Edition">0: as it came with the program.</param>
public sealed record ProfileInBook(ReportProfile Profile, int Edition);

/// <summary>The profiles: those that came with the program, and over them those of the office.</summary>
public static class ProfileBook
{
    public const string General = "general-month";

    private static readonly Lazy<Dictionary<string, ReportProfile>> FromProgram = new(() =>
    {
        var assembly = typeof(ProfileBook).Assembly;
        return assembly.GetManifestResourceNames().Where(n => n.Contains(".StateReports.Profiles.", StringComparison.Ordinal) && n.EndsWith(".json", StringComparison.Ordinal)).Order(StringComparer.Ordinal).Select(name =>
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
            var (profile, problems) = ReadProfile.Of(reader.ReadToEnd());
            return profile ?? throw new InvalidOperationException($"{name}: {string.Join(' ', problems)}");
        }).ToDictionary(p => p.Code, StringComparer.Ordinal);
    });

    public static IReadOnlyDictionary<string, ReportProfile> Shipped => FromProgram.Value;

    public static async Task<IReadOnlyList<ProfileInBook>> ReadAsync(OfficeDb db, CancellationToken cancel = default) => Of(await db.ReportProfiles.AsNoTracking().ToListAsync(cancel));

    /// <param name="editions">Everything the office ever kept.</param>
    public static IReadOnlyList<ProfileInBook> Of(IEnumerable<KeptProfile> editions)
    {
        var kept = editions.GroupBy(k => k.Code).Select(g => g.MaxBy(k => k.Edition)!).ToDictionary(k => k.Code, StringComparer.Ordinal);
        return [.. kept.Values.Select(k => InBook(k.Code, k.Json, k.Edition)).Concat(Shipped.Values.Where(p => !kept.ContainsKey(p.Code)).Select(p => new ProfileInBook(p, 0)))
            .OrderBy(p => p.Profile.Code != General).ThenBy(p => p.Profile.Name, StringComparer.Ordinal)];
    }

    public static async Task<ProfileInBook?> FindAsync(OfficeDb db, string code, CancellationToken cancel = default)
    {
        var kept = await db.ReportProfiles.AsNoTracking().Where(k => k.Code == code).OrderByDescending(k => k.Edition).FirstOrDefaultAsync(cancel);
        return Latest(kept?.Json, kept?.Edition ?? 0, code);
    }

    /// <summary>Every edition, newest first, that of the program last.</summary>
    public static async Task<IReadOnlyList<ProfileEdition>> EditionsAsync(OfficeDb db, string code, CancellationToken cancel = default)
    {
        var kept = await db.ReportProfiles.AsNoTracking().Where(k => k.Code == code).OrderByDescending(k => k.Edition).Select(k => new { k.Edition, k.SavedAtUtc, k.SavedBy }).ToListAsync(cancel);
        var runs = (await db.ReportRuns.AsNoTracking().Where(r => r.ProfileCode == code).OrderBy(r => r.Number).Select(r => new { r.ProfileEdition, r.PeriodKind, r.Period, r.First, r.Last }).ToListAsync(cancel))
            .ToLookup(r => r.ProfileEdition, r => new ReportPeriod(r.PeriodKind, r.Period, r.First, r.Last));
        var editions = kept.Select(k => new ProfileEdition(k.Edition, k.SavedAtUtc, k.SavedBy, [.. runs[k.Edition]])).ToList();
        return Shipped.ContainsKey(code) ? [.. editions, new(0, null, "", [.. runs[0]])] : editions;
    }

    /// <summary>The office's own where there is one, else the program's, else null.</summary>
    public static ProfileInBook? Latest(string? keptJson, int edition, string code) =>
        keptJson is not null ? InBook(code, keptJson, edition) : Shipped.TryGetValue(code, out var shipped) ? new(shipped, 0) : null;

    /// <summary>Adds an edition; the same text again adds none.</summary>
    /// <param name="seen">The edition the person changed; another one in between refuses.</param>
    /// <returns>Null, or why not.</returns>
    public static Task<string?> KeepAsync(OfficeDb db, ReportProfile profile, int? seen, string by, DateTime nowUtc, CancellationToken cancel = default) => db.WriteAsync(async () =>
    {
        await db.TakeTurnAsync(Turn.Report, cancel);
        var latest = await FindAsync(db, profile.Code, cancel);
        if (seen is null && latest is not null) return $"There is a profile “{profile.Code}” already. Give this one another code, or open that one and change it.";
        if (latest is not null && latest.Edition != seen) return "Someone else changed this profile since you opened it. Your text is kept here; open the profile in a second tab to see theirs.";
        var text = WriteProfile.Text(profile);
        if (latest is not null && WriteProfile.Text(latest.Profile) == text) return null;
        db.ReportProfiles.Add(new KeptProfile { Code = profile.Code, Edition = (latest?.Edition ?? 0) + 1, Json = text, SavedAtUtc = nowUtc, SavedBy = by });
        if (await db.ReportDuties.FirstOrDefaultAsync(d => d.ProfileCode == profile.Code, cancel) is { } duty) duty.State = profile.State;
        await db.SaveChangesAsync(cancel);
        return null;
    }, cancel);

    private static ProfileInBook InBook(string code, string json, int edition)
    {
        var (profile, problems) = ReadProfile.Of(json);
        return new(profile ?? throw new InvalidOperationException($"The kept profile {code}: {string.Join(' ', problems)}"), edition);
    }
}
