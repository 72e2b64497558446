using System.IO.Compression;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Commands;
using MitigationOffice.Web.Tests.Work;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>Addresses that a state keeps private, in what leaves the program otherwise than as a list.</summary>
public sealed class PrivateExportTests : IAsyncLifetime
{
    private readonly OfficeApp _office = new();

    public Task InitializeAsync() => _office.InitializeAsync();

    public async Task DisposeAsync() => await _office.DisposeAsync();

    [Theory]
    [InlineData("NJ", false)]
    [InlineData("MN", true)]
    public async Task A_phone_s_calendar_tells_a_private_house_by_its_town_and_its_job(string state, bool told)
    {
        var (house, jobId) = await _office.HouseWithJobAsync(h => (h.State, h.Street) = (state, "4 Hidden Road"));
        var (desk, crew) = (await _office.SignInAsOfficeAsync(), await _office.SignInAsInstallerAsync());
        var cleo = await _office.WithDbAsync(async db => $"p{await db.Users.Where(u => u.FullName == "Cleo Marsh").Select(u => u.Id).SingleAsync()}");
        await desk.SubmitAsync($"/houses/{house.HouseId}/work", new() { ["Input.Days[0].Day"] = "3/6/2026", ["Input.Days[0].Who"] = cleo, ["Input.HoldBecause"] = "key under the mat at 4 Hidden Road" }, "form[action*='handler=Plan']");
        var made = await crew.SubmitAsync("/account/calendar", [], "form[action*='handler=Make']");
        var page = await crew.GetStringAsync(made.Headers.Location);
        var link = new Uri(new AngleSharp.Html.Parser.HtmlParser().ParseDocument(page).QuerySelector("code")!.TextContent).AbsolutePath;
        var feed = (await _office.Visitor().GetStringAsync(link)).Replace("\r\n ", "", StringComparison.Ordinal);
        Assert.Contains((await _office.JobAsync(jobId)).Number, feed, StringComparison.Ordinal);
        Assert.Contains("Birchford", feed, StringComparison.Ordinal);
        Assert.Contains($"houses/{house.HouseId}/work", feed, StringComparison.Ordinal);
        Assert.Equal(told, feed.Contains("Hidden Road", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_export_of_everything_leaves_private_houses_out_unless_it_is_told_to_keep_them()
    {
        await _office.TagAsync(Utc(2026, 2, 10), "3 Open Road");
        var tag = await _office.TagAsync(Utc(2026, 2, 11), "4 Hidden Road", state: "NJ");
        await _office.FreezeAsync("2026-02");
        await _office.ChangeAsync(tag, (_, house) => house.Street = "5 Secret Road");
        await _office.WithDbAsync(async db =>
        {
            var house = await db.Houses.SingleAsync(h => h.State == "NJ");
            db.Add(StoredDocument.Of("deed of the house"u8.ToArray(), PaperKind.Attachment, "Deed", "deed.txt", "text/plain", house.Id, _office.Now(), "a test"));
            await db.SaveChangesAsync();
        });
        var (hidden, whole) = (await ExportAsync(withPrivate: false), await ExportAsync(withPrivate: true));
        Assert.Contains("Hidden Road", whole, StringComparison.Ordinal);
        Assert.Contains("deed of the house", whole, StringComparison.Ordinal);
        foreach (var told in new[] { "Hidden Road", "Secret Road", "deed of the house" }) Assert.DoesNotContain(told, hidden, StringComparison.Ordinal);
        Assert.Contains("3 Open Road", hidden, StringComparison.Ordinal);
        Assert.Contains(PrivateHouses.Instead, hidden, StringComparison.Ordinal);
    }

    private async Task<string> ExportAsync(bool withPrivate)
    {
        var folder = Directory.CreateDirectory(Path.Combine(_office.Folder, withPrivate ? "whole" : "hidden")).FullName;
        await _office.WithDbAsync(async db => { await ExportCommand.MakeAsync(db, folder, withPrivate ? null : await PrivateHouses.ReadAsync(db), CancellationToken.None); });
        using var zip = ZipFile.OpenRead(Path.Combine(folder, PrivateFiles.Finished));
        var texts = new List<string>();
        foreach (var entry in zip.Entries)
        {
            using var reader = new StreamReader(await entry.OpenAsync());
            texts.Add(await reader.ReadToEndAsync());
        }

        return string.Join('\n', texts);
    }
}
