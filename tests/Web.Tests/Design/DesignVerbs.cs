using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Web.Tests.Diagnosis;

namespace MitigationOffice.Web.Tests.Design;

/// <summary>Makes houses with a computed design, through the pages.</summary>
public static class DesignVerbs
{
    /// <summary>A house with the trade's readings and design A: 4 in pipe, 8 ft up, out through the wall, a fan, 16 ft outdoors.</summary>
    public static async Task<(int House, int Design)> HouseWithDesignAsync(this OfficeApp office)
    {
        var house = await office.HouseWithReadingsAsync();
        var answer = await (await office.SignInAsOwnerAsync()).SubmitAsync($"/houses/{house}/design/route", Route());
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return (house, await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == house).Select(d => d.Id).SingleAsync()));
    }

    /// <summary>The lengths that the offered usual route still lacks, and where the mouth stands.</summary>
    public static Dictionary<string, string> Route() => new()
    {
        ["Input.Pieces[0].Length"] = "8 ft", ["Input.Pieces[0].Rise"] = "8", ["Input.Pieces[2].Length"] = "6'", ["Input.Pieces[5].Length"] = "16", ["Input.Pieces[5].Rise"] = "16",
        ["Input.DischargeHeight"] = "18", ["Input.OpeningDistance"] = "12", ["Input.AboveOpeningTop"] = "1", ["Input.AboveRoof"] = "6 in", ["Input.AdjacentBuilding"] = "30",
    };
}
