using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Diagnosis;
using MitigationOffice.Web.Tests.Messages;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Quotes;

/// <summary>A choice that stands on another design than the rest of its quote.</summary>
public sealed class TierDesignTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Take = "#take-design", Edit = "form[action*='/quote?revision']";

    private sealed record TwoDesigns(int HouseId, int Inside, int Outside);

    /// <summary>Design A goes through the attic, 40 ft of pipe; design B, the latest, outdoors, 30 ft.</summary>
    private async Task<TwoDesigns> HouseAsync()
    {
        await office.PriceBookAsync();
        var house = await office.HouseWithReadingsAsync();
        return await office.WithDbAsync(async db =>
        {
            db.HouseOwners.Add(new HouseOwner { HouseId = house, Customer = new Customer { Name = "Odo Fenn", Email = $"odo{house}@fenn.example" }, FromDay = new DateOnly(2020, 1, 1) });
            var test = await db.PressureFieldTests.Where(t => t.HouseId == house).Select(t => t.Id).FirstAsync();
            var inside = Design(house, test, "A", PiecePlace.Attic, 30 * 0.3048);
            db.Designs.Add(inside);
            await db.SaveChangesAsync();
            var outside = Design(house, test, "B", PiecePlace.Outdoors, 20 * 0.3048);
            db.Designs.Add(outside);
            await db.SaveChangesAsync();
            return new TwoDesigns(house, inside.Id, outside.Id);
        });
    }

    private static SuctionDesign Design(int house, int test, string letter, PiecePlace place, double metres) => new()
    {
        HouseId = house, Revision = letter, PressureFieldTestId = test,
        Pieces =
        [
            new() { Position = 1, Kind = PieceKind.Pipe, LengthM = 3.048, RiseM = 2 }, new() { Position = 2, Kind = PieceKind.Elbow90, Count = 3 }, new() { Position = 3, Kind = PieceKind.Fan, Place = place },
            new() { Position = 4, Kind = PieceKind.Pipe, LengthM = metres, RiseM = metres, Place = place },
        ],
    };

    private async Task<(TwoDesigns At, HttpClient Desk)> TakenAsync()
    {
        var at = await HouseAsync();
        var desk = await office.SignInAsOwnerAsync();
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", [], button: "button[value=false]");
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["Input.Answers"] = "A test of 9.6 pCi/L.", ["Input.TaxPercent"] = "6.875" }, Edit);
        var taken = await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["position"] = "3", ["design"] = $"{at.Inside}" }, Take);
        Assert.True(taken.StatusCode == HttpStatusCode.Redirect, await taken.TextAsync());
        return (at, desk);
    }

    [Fact]
    public async Task A_design_whose_fan_does_not_hold_is_worth_a_look_before_the_quote_goes_out()
    {
        var (at, desk) = await TakenAsync();
        Assert.DoesNotContain("does not hold", await desk.TextAsync($"/houses/{at.HouseId}/quote"), StringComparison.Ordinal);
        await office.WithDbAsync(async db =>
        {
            var inside = await db.Designs.SingleAsync(d => d.Id == at.Inside);
            (inside.TargetPa, inside.ReportJson) = (100, null);
            return await db.SaveChangesAsync();
        });
        Assert.Contains("Design A has not been computed.", await desk.TextAsync($"/houses/{at.HouseId}/quote"), StringComparison.Ordinal);
        await office.WithDbAsync(async db => await ComputeDesign.StoreAsync(db, await db.Designs.WithRoute().SingleAsync(d => d.Id == at.Inside), office.Clock));
        var sheet = await desk.TextAsync($"/houses/{at.HouseId}/quote");
        Assert.Matches("Design A: the .+ does not hold. Hole .+ 100.0 Pa are wanted", sheet);
        Assert.DoesNotContain("Design B: the", sheet, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(desk, $"/houses/{at.HouseId}/quote");
    }

    [Fact]
    public async Task Take_off_additions_running_cost_drawing_and_work_follow_the_choices_own_design()
    {
        var (at, desk) = await TakenAsync();
        var r = await LatestAsync(at.HouseId);
        var (first, third) = (r.Tiers.Single(t => t.Position == 1), r.Tiers.Single(t => t.Position == 3));
        Assert.Equal((null, at.Inside, at.Outside), (first.SuctionDesignId, third.SuctionDesignId, r.SuctionDesignId));
        Assert.Equal((30m, 40m), (first.Lines.Single(l => l.Words == "4 in pipe").Quantity, third.Lines.Single(l => l.Words == "4 in pipe").Quantity));
        Assert.True(third.ElectricityPerYear > Money.Zero);
        Assert.Contains("about 40 ft long", third.Scope, StringComparison.Ordinal);
        Assert.Contains("about 30 ft long", r.Scope, StringComparison.Ordinal);

        // No pipe of design A is outdoors: no cable is in its price or beside it.
        var cable = r.AddOns.Single(a => a.Words.StartsWith("Freeze-guard", StringComparison.Ordinal));
        Assert.DoesNotContain(third.Lines, l => l.Words.StartsWith("Freeze-guard", StringComparison.Ordinal));
        Assert.True(PriceQuote.IsOpenTo(first, cable));
        Assert.False(PriceQuote.IsOpenTo(third, cable));
        Assert.Contains("“Through every winter”: Freeze-guard heat cable: No pipe of the route is outdoors.", r.NotOffered, StringComparison.Ordinal);
        Assert.Contains(r.AddOns, a => a.Words == "Second alarm on the ground floor" && a.Beside == 0);

        var sheet = await desk.TextAsync($"/houses/{at.HouseId}/quote");
        Assert.Contains("on design A", sheet, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(desk, $"/houses/{at.HouseId}/quote");
        var sent = await desk.SubmitAsync($"/houses/{at.HouseId}/quote", [], "#send");
        Assert.True(sent.StatusCode == HttpStatusCode.Redirect, await sent.TextAsync());
        Assert.All(await office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == at.HouseId).ToListAsync()), d => Assert.NotNull(d.FrozenAtUtc));
        await office.AssertFewStatementsAsync(desk, $"/houses/{at.HouseId}/quote");
        using var pdf = PdfDocument.Open(await (await desk.GetAsync($"/houses/{at.HouseId}/quote?handler=Paper&revision={r.Id}")).Content.ReadAsByteArrayAsync());
        var paper = string.Join(' ', pdf.GetPages().Select(p => p.Text));
        Assert.Contains("How it is built in “Sound” and “Sure”", paper, StringComparison.Ordinal);
        Assert.Contains("How it is built in “Through every winter”", paper, StringComparison.Ordinal);

        var token = await TokenAsync(at.HouseId);
        var visitor = office.Visitor();
        var offer = await visitor.TextAsync($"/offer/{token}");
        Assert.Contains("Built otherwise: We draw air from a pit", offer, StringComparison.Ordinal);
        Assert.DoesNotContain("Freeze-guard", await visitor.TextAsync($"/offer/{token}?step=add&tier={third.Id}"), StringComparison.Ordinal);
        Assert.Contains("Freeze-guard", await visitor.TextAsync($"/offer/{token}?step=add&tier={first.Id}"), StringComparison.Ordinal);
        var drawing = await (await visitor.GetAsync($"/offer/{token}?step=drawing&tier={third.Id}")).Content.ReadAsStringAsync();
        Assert.Contains("<svg", drawing, StringComparison.Ordinal);
        Assert.Contains("Through every winter", drawing, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(visitor, $"/offer/{token}");
        await office.AssertFewStatementsAsync(visitor, $"/offer/{token}?step=drawing&tier={third.Id}");

        var signed = await office.AcceptedQuoteAsync(new OfferOut(at.HouseId, r.QuoteId, r.Id, token, [first.Id, third.Id], []));
        Assert.Equal(at.Inside, signed.SuctionDesignId);
        var job = (await office.WithDbAsync(db => OpenJob.RunAsync(db, signed.Id, office.Clock)))!.Value;
        Assert.Contains("value=\"40\"", await (await desk.GetAsync($"/houses/{at.HouseId}/work/materials?job={job}")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Empty((await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task Back_on_the_quotes_design_it_has_nothing_of_its_own_and_all_choices_can_change_over()
    {
        var (at, desk) = await TakenAsync();
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["position"] = "3", ["design"] = $"{at.Outside}" }, Take);
        var r = await LatestAsync(at.HouseId);
        Assert.All(r.Tiers, t => Assert.Equal((null, "", Money.Zero), (t.SuctionDesignId, t.Scope, t.ElectricityPerYear)));
        Assert.All(r.AddOns.Where(a => a.Words == "Second alarm on the ground floor"), a => Assert.Equal(0, a.Beside));
        Assert.Single(r.AddOns, a => a.Words == "Second alarm on the ground floor");
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["position"] = "0", ["design"] = $"{at.Inside}" }, Take);
        r = await LatestAsync(at.HouseId);
        Assert.Equal(at.Inside, r.SuctionDesignId);
        Assert.All(r.Tiers, t => Assert.Equal((null, 40m), (t.SuctionDesignId, t.Lines.Single(l => l.Words == "4 in pipe").Quantity)));
        Assert.DoesNotContain(r.AddOns, a => a.Words.StartsWith("Freeze-guard", StringComparison.Ordinal));
        Assert.Contains("about 40 ft long", r.Scope, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_typed_about_it_is_kept_what_is_missing_is_named_and_a_revision_takes_it_along()
    {
        var (at, desk) = await TakenAsync();
        var saved = await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["Input.Tiers[2].Scope"] = "", ["Input.Tiers[2].ElectricityPerYear"] = "31.50", ["Input.Tiers[2].FanLifeYears"] = "8" }, Edit);
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        Assert.Contains("“Through every winter” stands on a design of its own: write what is done in it.", await desk.TextAsync($"/houses/{at.HouseId}/quote"), StringComparison.Ordinal);
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["Input.Tiers[2].Scope"] = "Up through the attic.", ["Input.AddOns[0].Beside"] = "1" }, Edit);
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", [], "#send");
        await desk.SubmitAsync($"/houses/{at.HouseId}/quote", [], "#revise");
        var r = await LatestAsync(at.HouseId);
        var third = r.Tiers.Single(t => t.Position == 3);
        Assert.Equal(("B", at.Inside, "Up through the attic.", 31_50, 8), (r.Letter, third.SuctionDesignId, third.Scope, third.ElectricityPerYear.Cents, third.FanLifeYears));
        Assert.Equal(1, r.AddOns.OrderBy(a => a.Position).First().Beside);
    }

    [Fact]
    public async Task Another_houses_design_is_refused()
    {
        var (at, desk) = await TakenAsync();
        var other = await HouseAsync();
        var before = await LatestAsync(at.HouseId);
        var answer = await desk.SubmitAsync($"/houses/{at.HouseId}/quote", new() { ["position"] = "1", ["design"] = $"{other.Inside}" }, Take);
        Assert.Contains("Choose one of this house's designs.", await answer.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(before.Version, (await LatestAsync(at.HouseId)).Version);
    }

    private Task<QuoteRevision> LatestAsync(int house) => office.WithDbAsync(db =>
        db.QuoteRevisions.AsNoTracking().WithPrices().Where(r => r.Quote!.HouseId == house).OrderByDescending(r => r.Id).FirstAsync());

    private async Task<string> TokenAsync(int house)
    {
        await office.SendOutboxAsync();
        var text = Assert.Single(office.MailTo($"odo{house}@fenn.example")).TextBody!;
        return text[(text.IndexOf("/offer/", StringComparison.Ordinal) + "/offer/".Length)..][..43];
    }
}
