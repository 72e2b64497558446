using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>A PFE test of the house that a suction point may answer, with the holes at which it drew at once.</summary>
public sealed record TestChoice(int Id, DateOnly Day, IReadOnlyList<string> Pits)
{
    public string Value => TypedNumbers.Plain((decimal)Id);

    public string Words => Pits.Count == 0 ? HouseTime.Show(Day) : $"{HouseTime.Show(Day)}, {(Pits.Count == 1 ? "hole" : "holes")} {string.Join(" and ", Pits)}{(Pits.Count == 1 ? "" : " at once")}";

    /// <summary>Newest first.</summary>
    public static async Task<IReadOnlyList<TestChoice>> AllAsync(OfficeDb db, int houseId)
    {
        var tests = await db.PressureFieldTests.Where(t => t.HouseId == houseId).OrderByDescending(t => t.Day).ThenByDescending(t => t.Id)
            .Select(t => new { t.Id, t.Day, Pits = t.SuctionHoles.OrderBy(s => s.Id).Select(s => s.Label).ToList() }).AsSingleQuery().ToListAsync();
        return [.. tests.Select(t => new TestChoice(t.Id, t.Day, t.Pits))];
    }
}
