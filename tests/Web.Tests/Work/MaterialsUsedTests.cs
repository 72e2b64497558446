using System.Net;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Web.Tests.Work;

public sealed class MaterialsUsedTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task What_was_used_stands_beside_what_was_planned_and_parts_taken_over_are_to_be_credited()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{house.HouseId}/work/materials?job={jobId}";
        var saved = await crew.SubmitAsync(url, new()
        {
            ["Rows[0].What"] = "Pipe, 4 in", ["Rows[0].Unit"] = "ft", ["Rows[0].Planned"] = "30", ["Rows[0].Used"] = "34.5", ["Rows[1].What"] = "Elbow 90°, 4 in", ["Rows[1].Unit"] = "each", ["Rows[1].Planned"] = "6", ["Rows[1].Used"] = "6", ["Rows[1].TakenOver"] = "2",
        });
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        var text = await crew.TextAsync(url);
        Assert.Contains("Pipe, 4 in: +4.5 ft", text, StringComparison.Ordinal);
        Assert.Contains("2 each · Elbow 90°, 4 in", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Elbow 90°, 4 in: ", text, StringComparison.Ordinal);
        Assert.Contains("\"Pipe, 4 in\",ft,30,34.5,4.5", await crew.GetStringAsync(url + "&handler=Csv"), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(crew, url);
    }

    [Fact]
    public async Task A_list_saved_by_two_people_keeps_the_later_ones_typing_and_says_so()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{house.HouseId}/work/materials?job={jobId}";
        await crew.SubmitAsync(url, new() { ["Rows[0].What"] = "Sealant", ["Rows[0].Used"] = "2" });
        var late = await crew.SubmitAsync(url, new() { ["Rows[0].Used"] = "5", ["Stamp"] = "old" });
        Assert.Contains("Someone else saved this list", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"5\"", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(2, await office.WithDbAsync(db => db.MaterialUses.Where(m => m.JobId == jobId).Select(m => m.Used).SingleAsync()));
    }

    [Theory]
    [InlineData("many", "", "Write the quantity as a number")]
    [InlineData("-1", "", "must be between 0")]
    [InlineData("1", "2", "More of Strap was taken over than used")]
    public async Task An_absurd_quantity_is_refused_and_nothing_is_half_saved(string used, string over, string words)
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var answer = await crew.SubmitAsync($"/houses/{house.HouseId}/work/materials?job={jobId}", new() { ["Rows[0].What"] = "Tape", ["Rows[0].Used"] = "1", ["Rows[1].What"] = "Strap", ["Rows[1].Used"] = used, ["Rows[1].TakenOver"] = over });
        Assert.Contains(words, await answer.TextAsync(), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.MaterialUses.AnyAsync(m => m.JobId == jobId)));
    }
}
