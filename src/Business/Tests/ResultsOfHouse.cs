using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

/// <summary>The radon results of a house before and after the work, a line each, for its papers.</summary>
public static class ResultsOfHouse
{
    public static async Task<IReadOnlyList<string>> LinesAsync(OfficeDb db, int houseId, TimeZoneInfo zone)
    {
        var before = await db.Houses.Where(h => h.Id == houseId).SelectMany(h => h.EarlierTests).OrderBy(t => t.EndedOn).ThenBy(t => t.Id)
            .Select(t => new { t.PCiL, t.Room, t.EndedOn }).ToListAsync();
        var after = await db.RadonTests.Where(t => t.HouseId == houseId && t.JudgedAtUtc != null && t.Outcome != TestOutcome.NotValid).OrderBy(t => t.StartedAtUtc)
            .Select(t => new { t.DecidingPCiL, t.EndedAtUtc, t.Outcome }).ToListAsync();
        return
        [
            .. before.Select(t => $"Before: {Show(t.PCiL)}{(t.Room.Length == 0 ? "" : $", {t.Room}")}{(t.EndedOn is null ? "" : $", {HouseTime.Show(t.EndedOn)}")}"),
            .. after.Select(t => $"After: {Show(t.DecidingPCiL ?? 0)}, {HouseTime.Show(HouseTime.DayOf(t.EndedAtUtc!.Value, zone))}{(t.Outcome == TestOutcome.NotPassed ? ", not passed" : "")}"),
        ];
    }

    private static string Show(decimal pCiL) => RadonConcentration.FromPciPerL(pCiL).ToString();
}
