using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Web.Tests.Houses;

namespace MitigationOffice.Web.Tests.Papers;

public sealed class HistoryTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_change_is_told_with_who_when_from_and_to_in_the_readers_units()
    {
        var owner = await office.SignInAsOwnerAsync();
        var inquiry = HouseVerbs.Inquiry("1 History Hill", "Old Name", "555-555-0111");
        (inquiry["Input.Areas[0].Kind"], inquiry["Input.Areas[0].Floor"]) = ("Basement", "900");
        var id = await owner.TakeInquiryAsync(inquiry);
        office.Clock.Advance(TimeSpan.FromMinutes(1));
        await owner.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.Areas[0].Floor"] = "1,000", ["Input.Heating"] = "Boiler" });
        var text = await owner.TextAsync($"/houses/{id}/papers");
        Assert.Contains("Ada Quill, Mar 2, 2026 9:", text, StringComparison.Ordinal);
        Assert.Contains("Foundation area changed: Floor from 900 ft² to 1000 ft²", text, StringComparison.Ordinal);
        Assert.Contains("Heating from nothing to “Boiler”", text, StringComparison.Ordinal);
        Assert.Contains("Customer added", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Search", text, StringComparison.Ordinal);
        Assert.True(text.IndexOf("Foundation area changed", StringComparison.Ordinal) < text.IndexOf("Foundation area added", StringComparison.Ordinal), "newest first");
    }

    [Fact]
    public async Task Rows_of_rows_and_rows_taken_out_belong_to_their_house()
    {
        var id = await office.AddHouseAsync("2 Deep Hill");
        var other = await office.AddHouseAsync("3 Other Hill");
        await office.WithDbAsync(async db =>
        {
            db.Add(new SuctionDesign { HouseId = id, Revision = "A", Pieces = [new RoutePiece { Position = 1, LengthM = 3.048, Place = PiecePlace.Attic }] });
            await db.SaveChangesAsync();
        });
        // Taken out alone, its design not loaded: the way to its house is found all the same.
        await office.WithDbAsync(async db =>
        {
            db.Remove(await db.Set<RoutePiece>().SingleAsync());
            await db.SaveChangesAsync();
        });
        var owner = await office.SignInAsOwnerAsync();
        Assert.Contains("Route piece taken out: ", await owner.TextAsync($"/houses/{id}/papers"), StringComparison.Ordinal);
        Assert.DoesNotContain("Route piece", await owner.TextAsync($"/houses/{other}/papers"), StringComparison.Ordinal);
        Assert.Empty((await office.WithDbAsync(db => VerifyRecords.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task A_long_history_is_paged_and_every_change_is_told_once()
    {
        var id = await office.AddHouseAsync("4 Long Hill");
        for (var i = 0; i < 80; i++)
        {
            await office.WithDbAsync(async db =>
            {
                (await db.Houses.SingleAsync(h => h.Id == id)).Notes = $"note {i:00}.";
                await db.SaveChangesAsync();
            });
            office.Clock.Advance(TimeSpan.FromSeconds(5));
        }

        var owner = await office.SignInAsOwnerAsync();
        var first = await owner.GetAsync($"/houses/{id}/papers");
        var older = System.Text.RegularExpressions.Regex.Match(await first.Content.ReadAsStringAsync(), @"papers\?before=(\d+)").Groups[1].Value;
        var told = (await first.TextAsync() + await owner.TextAsync($"/houses/{id}/papers?before={older}")).Split("to “note").Length - 1;
        Assert.Equal(80, told);
        Assert.Contains("Nothing older", await owner.TextAsync($"/houses/{id}/papers?before=1"), StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, $"/houses/{id}/papers?before={older}");
    }

    [Fact]
    public async Task Hostile_words_in_a_change_are_shown_as_text()
    {
        var owner = await office.SignInAsOwnerAsync();
        var id = await office.AddHouseAsync("5 Hostile Hill");
        await owner.SubmitAsync($"/houses/{id}/inquiry", new() { ["Input.Notes"] = "\"><svg onload=x>" + new string('z', 5000) });
        var html = await (await owner.GetAsync($"/houses/{id}/papers")).Content.ReadAsStringAsync();
        Assert.DoesNotContain("<svg onload", html, StringComparison.Ordinal);
        Assert.Contains("zzz…”", await owner.TextAsync($"/houses/{id}/papers"), StringComparison.Ordinal);
    }
}
