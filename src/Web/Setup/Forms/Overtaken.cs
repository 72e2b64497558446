using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup.Forms;

/// <summary>When two people change the same record: the later one keeps what they typed and sees what the other saved.</summary>
public static class Overtaken
{
    /// <summary>Saves only if the row still has the version the form was opened with.</summary>
    public static void Expect(this OfficeDb db, Record row, int postedVersion) =>
        db.Entry(row).Property(r => r.Version).OriginalValue = postedVersion;

    /// <summary>Saves; on a conflict says what the other person saved, field by field, and returns false.
    /// <paramref name="theirs"/> reads the form afresh from the database, <paramref name="yours"/> is what was posted.</summary>
    public static async Task<bool> TrySaveAsync<TInput>(
        this OfficeDb db, ModelStateDictionary state, string prefix, TInput yours, Func<Task<(TInput Theirs, int Version)>> theirs, Action<int> setVersion)
        where TInput : class
    {
        try
        {
            await db.SaveChangesAsync();
            return true;
        }
        catch (DbUpdateConcurrencyException)
        {
            db.ChangeTracker.Clear();
            var (saved, version) = await theirs();
            var differences = Differences(saved, yours).ToList();
            state.AddModelError("", differences.Count == 0
                ? "Someone else saved this since you opened it, with the same values. Nothing more to do, or save again."
                : "Someone else saved this since you opened it. Your typing is kept below; saving again puts your values over theirs.");
            foreach (var (field, words) in differences) state.AddModelError($"{prefix}.{field}", words);
            setVersion(version);
            state.Remove("Version");
            return false;
        }
    }

    private static IEnumerable<(string Field, string Words)> Differences<TInput>(TInput theirs, TInput yours)
        where TInput : class
    {
        foreach (var property in typeof(TInput).GetProperties().Where(p => p.CanRead && (p.PropertyType == typeof(string) || p.PropertyType == typeof(bool))))
        {
            var (a, b) = ($"{property.GetValue(theirs)}".Trim(), $"{property.GetValue(yours)}".Trim());
            if (a != b) yield return (property.Name, $"They saved “{(a.Length == 0 ? "nothing" : a)}”; you wrote “{(b.Length == 0 ? "nothing" : b)}”.");
        }
    }
}
