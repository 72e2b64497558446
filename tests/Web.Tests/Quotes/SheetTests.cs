using System.Net;
using System.Text;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Tests.Diagnosis;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Quotes;

[Trait("Database", "either")]
public sealed class SheetTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_draft_by_hand_puts_the_price_book_into_three_choices_that_add_up()
    {
        var house = await office.HouseToQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        var made = await desk.SubmitAsync($"/houses/{house}/quote", [], button: "button[value=true]");
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        var r = await LatestAsync(house);
        Assert.Matches("^Q-2026-\\d{4}$", r.Quote!.Number);
        Assert.Equal(["Sound", "Sure", "Through every winter"], r.Tiers.OrderBy(t => t.Position).Select(t => t.Name));
        var lines = r.Tiers.OrderBy(t => t.Position).Select(t => t.Lines.Select(l => l.Words).ToHashSet()).ToList();
        Assert.Contains("Licensed electrician", lines[0]);
        Assert.Equal(["Condensate bypass at the fan"], lines[1].Except(lines[0]));
        Assert.Equal(["Freeze-guard heat cable"], lines[2].Except(lines[1]));
        // Suction point: 40 × 1.5 + 2 h × 95 = 250.00; pipe: 3.21 × 1.6 + 4/60 × 95 = 5.14 + 6.33 = 11.47; electrician: 300 × 1.15 = 345.00.
        Assert.Equal(606_47, PriceQuote.Of(r, r.Tiers.Single(t => t.Position == 1), []).Net.Cents);
        Assert.Contains("9.6 pCi/L", r.Answers, StringComparison.Ordinal);
        Assert.Contains("$606.47", await desk.TextAsync($"/houses/{house}/quote"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_draft_from_a_design_counts_its_pipe_and_names_its_running_cost_and_reasons()
    {
        await office.PriceBookAsync();
        var house = await office.HouseWithReadingsAsync();
        await office.WithDbAsync(async db =>
        {
            var owner = new Business.Customers.Customer { Name = "Odo Fenn", Email = "odo@fenn.example" };
            db.HouseOwners.Add(new Business.Houses.HouseOwner { HouseId = house, Customer = owner, FromDay = new DateOnly(2020, 1, 1) });
            var test = await db.PressureFieldTests.FirstAsync(t => t.HouseId == house);
            db.Designs.Add(new SuctionDesign
            {
                HouseId = house,
                Revision = "A",
                PressureFieldTestId = test.Id,
                Pieces =
                [
                    new() { Position = 1, Kind = PieceKind.Pipe, LengthM = 3.048, RiseM = 2 }, new() { Position = 2, Kind = PieceKind.Elbow90, Count = 3 }, new() { Position = 3, Kind = PieceKind.Fan, Place = PiecePlace.Outdoors },
                    new() { Position = 4, Kind = PieceKind.Pipe, LengthM = 6.096, RiseM = 6.096, Place = PiecePlace.Outdoors },
                ],
            });
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{house}/quote", [], button: "button[value=false]");
        var r = await LatestAsync(house);
        Assert.Equal(30, r.Tiers[0].Lines.Single(l => l.Words == "4 in pipe").Quantity);
        Assert.True(r.ElectricityPerYear > Money.Zero);
        Assert.Contains("20 ft of it outdoors", r.Scope, StringComparison.Ordinal);
        var cable = r.AddOns.Single(a => a.Words.StartsWith("Freeze-guard", StringComparison.Ordinal));
        Assert.True(cable.Reason.Length > "Ice closes the outdoor pipe on the coldest days.".Length, cable.Reason);
        Assert.NotEmpty(r.WhyRecommended);
        var version = r.Version;
        await desk.SubmitAsync($"/houses/{house}/quote", new() { ["Input.Answers"] = "A test of 9.6 pCi/L." }, Edit);
        var sent = await desk.SubmitAsync($"/houses/{house}/quote", [], "#send");
        Assert.Equal(HttpStatusCode.Redirect, sent.StatusCode);
        var design = await office.WithDbAsync(db => db.Designs.SingleAsync(d => d.HouseId == house));
        Assert.NotNull(design.FrozenAtUtc);
        Assert.NotNull(design.ReportJson);
        Assert.True(version < (await LatestAsync(house)).Version);
    }

    [Fact]
    public async Task A_house_without_an_owner_is_not_quoted()
    {
        var house = await office.PlainHouseAsync();
        await office.WithDbAsync(db => db.HouseOwners.Where(o => o.HouseId == house).ExecuteDeleteAsync());
        var answer = await (await office.SignInAsOfficeAsync()).SubmitAsync($"/houses/{house}/quote", [], button: "button[value=true]");
        Assert.Contains("Nobody is named as the owner of this house", await answer.TextAsync(), StringComparison.Ordinal);
    }

    private const string Edit = "form[action*='/quote?revision']";

    [Fact]
    public async Task Lines_are_changed_added_from_the_book_and_taken_out()
    {
        var draft = await office.DraftedQuoteAsync();
        var owner = await office.SignInAsOwnerAsync();
        var item = await office.WithDbAsync(db => db.PriceItems.Where(i => i.Code == "ALARM2").Select(i => i.Id).SingleAsync());
        var answer = await owner.SubmitAsync($"/houses/{draft.HouseId}/quote", new()
        {
            ["Input.Tiers[0].Lines[0].Words"] = "Two suction points",
            ["Input.Tiers[0].Lines[0].Quantity"] = "2",
            ["Input.Tiers[0].Lines[0].Price"] = "$1,250.50",
            ["Input.Tiers[0].Lines[1].Words"] = "",
            ["Input.Tiers[0].AddItem"] = $"{item}",
            ["Input.TaxPercent"] = "7 %",
            ["Input.ValidUntil"] = "4/1/2026",
        }, Edit);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var r = await LatestAsync(draft.HouseId);
        var lines = r.Tiers.Single(t => t.Position == 1).Lines.OrderBy(l => l.Position).ToList();
        Assert.Equal(["Two suction points", "Licensed electrician", "Second alarm on the ground floor"], [lines[0].Words, lines[1].Words, lines[^1].Words]);
        Assert.Equal((2501_00, 95_00), (lines[0].Amount.Cents, lines[^1].UnitPrice.Cents));
        Assert.Equal((7m, new DateOnly(2026, 4, 1)), (r.TaxPercent, r.ValidUntil));
    }

    [Fact]
    public async Task What_cannot_be_read_is_refused_at_its_field_and_everything_typed_stays()
    {
        var draft = await office.DraftedQuoteAsync();
        var before = await LatestAsync(draft.HouseId);
        var answer = await (await office.SignInAsOfficeAsync()).SubmitAsync($"/houses/{draft.HouseId}/quote", new()
        {
            ["Input.Tiers[0].Lines[0].Price"] = "a lot",
            ["Input.Tiers[1].Lines[0].Quantity"] = "-3",
            ["Input.TaxPercent"] = "900",
            ["Input.Scope"] = "Typed & kept <b>",
        }, Edit);
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        foreach (var words in new[] { "Write the price as a number", "The quantity must be between 0 and 100000; you wrote -3.", "The sales tax must be between 0 and 25; you wrote 900.", "a lot", "Typed &amp; kept &lt;b&gt;", "href=\"#Input_Tiers_0__Lines_0__Price\"" })
            Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.Equal(before.Version, (await LatestAsync(draft.HouseId)).Version);
    }

    [Fact]
    public async Task Two_people_editing_lines_see_each_other_s()
    {
        var draft = await office.DraftedQuoteAsync();
        var (owner, desk) = (await office.SignInAsOwnerAsync(), await office.SignInAsOfficeAsync());
        var version = (await LatestAsync(draft.HouseId)).Version;
        await owner.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { ["Input.Tiers[0].Lines[0].Words"] = "Theirs first" }, Edit);
        var late = await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { ["Input.Tiers[0].Lines[0].Words"] = "Mine later", ["Version"] = $"{version}" }, Edit);
        var text = await late.TextAsync();
        Assert.Contains("Someone else saved this since you opened it", text, StringComparison.Ordinal);
        Assert.Contains("Theirs first", text, StringComparison.Ordinal);
        Assert.Contains("Mine later", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains((await LatestAsync(draft.HouseId)).Tiers[0].Lines, l => l.Words == "Theirs first");
    }

    [Fact]
    public async Task A_quote_edited_since_it_was_looked_at_is_not_sent()
    {
        var draft = await office.DraftedQuoteAsync();
        var (owner, desk) = (await office.SignInAsOwnerAsync(), await office.SignInAsOfficeAsync());
        var version = (await LatestAsync(draft.HouseId)).Version;
        await owner.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { ["Input.Tiers[0].Lines[0].Price"] = "9" }, Edit);
        var answer = await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { ["Version"] = $"{version}" }, "#send");
        Assert.Contains("Someone changed this quote since you opened it", await answer.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(RevisionState.Draft, (await LatestAsync(draft.HouseId)).State);
    }

    [Theory]
    [InlineData("Input.Answers", "Say which radon result this quote answers.")]
    [InlineData("Input.Scope", "Write the scope: what is done in the house.")]
    [InlineData("Input.TimeNeeded", "Write how long the work takes.")]
    [InlineData("Input.OwnersPart", "Write what the owner of the house must look after.")]
    [InlineData("Input.ElectricityPerYear", "Write what the system costs to run in a year.")]
    [InlineData("Input.Promise", "Write what is promised, and on which conditions.")]
    [InlineData("Input.Cautions", "Write the cautions, chemicals used among them.")]
    [InlineData("Input.CancellationNotice", "Write the right-to-cancel notice, or why it is left out.")]
    [InlineData("Input.AddOns[0].Reason", "is offered.")]
    public async Task A_quote_with_a_gap_names_it_with_a_link_and_cannot_be_sent(string field, string words)
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        var version = (await LatestAsync(draft.HouseId)).Version;
        var sending = await desk.GetStringAsync($"/houses/{draft.HouseId}/quote");
        await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { [field] = "" }, Edit);
        var page = await new HtmlParser().ParseDocumentAsync(await desk.GetStringAsync($"/houses/{draft.HouseId}/quote"));
        var gap = page.QuerySelectorAll(".gaps a").Single();
        Assert.Contains(words, gap.TextContent, StringComparison.Ordinal);
        Assert.NotNull(page.GetElementById(gap.GetAttribute("href")![1..]));
        Assert.Null(page.QuerySelector("#send"));
        var token = (await new HtmlParser().ParseDocumentAsync(sending)).QuerySelector("#send input[name=_form]")!.GetAttribute("value")!;
        var forced = await desk.PostAsync($"/houses/{draft.HouseId}/quote?handler=Send&revision={draft.RevisionId}", new FormUrlEncodedContent([new("_form", token), new("Version", $"{version + 1}")]));
        Assert.Contains("something is missing", await forced.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(RevisionState.Draft, (await LatestAsync(draft.HouseId)).State);
    }

    [Fact]
    public async Task Sending_freezes_the_paper_and_mails_a_link_that_works()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        var paths = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => desk.SubmitAsync($"/houses/{draft.HouseId}/quote", [], "#send")));
        Assert.Contains(paths, p => p.StatusCode == HttpStatusCode.Redirect);
        var mime = await office.WithDbAsync(db => db.Outbox.Where(m => m.HouseId == draft.HouseId).Select(m => m.Mime).ToListAsync());
        using var stream = new MemoryStream(Assert.Single(mime));
        var text = (await MimeMessage.LoadAsync(stream)).TextBody!;
        var path = text.Split('\n').Single(l => l.Contains("/offer/", StringComparison.Ordinal)).Trim().Split("5080")[1];
        Assert.Contains("9.6 pCi/L", await office.Visitor().TextAsync(path), StringComparison.Ordinal);
        var edit = await desk.GetAsync($"/houses/{draft.HouseId}/quote");
        Assert.DoesNotContain("Input.Scope", await edit.Content.ReadAsStringAsync(), StringComparison.Ordinal);

        await office.WithDbAsync(db => db.PriceItems.ExecuteUpdateAsync(p => p.SetProperty(x => x.Name, x => x.Name)));
        var first = await desk.GetByteArrayAsync($"/houses/{draft.HouseId}/quote?handler=Paper&revision={draft.RevisionId}");
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.Phone, "555-0999")));
        Assert.Equal(first, await desk.GetByteArrayAsync($"/houses/{draft.HouseId}/quote?handler=Paper&revision={draft.RevisionId}"));
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.Phone, "555-0100")));
    }

    [Fact]
    public async Task A_sent_revision_refuses_an_edit_and_keeps_what_was_typed()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        var page = await new HtmlParser().ParseDocumentAsync(await desk.GetStringAsync($"/houses/{draft.HouseId}/quote"));
        var token = page.QuerySelector(Edit + " input[name=_form]")!.GetAttribute("value")!;
        await office.SendAsync(draft);
        var late = await desk.PostAsync($"/houses/{draft.HouseId}/quote?revision={draft.RevisionId}", new FormUrlEncodedContent([new("_form", token), new("Input.Scope", "Typed too late")]));
        var html = await late.Content.ReadAsStringAsync();
        Assert.Contains("was sent while you were typing", html, StringComparison.Ordinal);
        Assert.Contains("Typed too late", html, StringComparison.Ordinal);
        Assert.Equal("A pit, a pipe, a fan, an alarm.", (await LatestAsync(draft.HouseId)).Scope);
    }

    [Fact]
    public async Task A_revision_takes_everything_over_and_replaces_the_one_before_when_it_is_sent()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{offer.HouseId}/quote", [], "#revise");
        var draft = await LatestAsync(offer.HouseId);
        Assert.Equal(("B", RevisionState.Draft, "A pit, a pipe, a fan, an alarm."), (draft.Letter, draft.State, draft.Scope));
        Assert.Contains("9.6 pCi/L", await office.Visitor().TextAsync(offer.Path), StringComparison.Ordinal);
        await desk.SubmitAsync($"/houses/{offer.HouseId}/quote", [], "#send");
        Assert.Contains("has been replaced", await office.Visitor().TextAsync(offer.Path), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_link_ends_the_one_before_and_a_withdrawn_quote_answers_so()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{offer.HouseId}/quote", [], "#again");
        Assert.Contains("This link has ended", await office.Visitor().TextAsync(offer.Path), StringComparison.Ordinal);
        Assert.Equal(2, await office.WithDbAsync(db => db.Outbox.CountAsync(m => m.HouseId == offer.HouseId)));
        await desk.SubmitAsync($"/houses/{offer.HouseId}/quote", new() { ["Lost.Because"] = "WeTookItBack" }, "#lost");
        Assert.Contains("has been withdrawn", await office.Visitor().TextAsync(offer.Path), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Costs_and_margins_are_shown_to_the_owner_and_to_no_one_else()
    {
        var draft = await office.DraftedQuoteAsync();
        var path = $"/houses/{draft.HouseId}/quote";
        Assert.Contains("Margin", await (await office.SignInAsOwnerAsync()).TextAsync(path), StringComparison.Ordinal);
        var desk = await office.SignInAsOfficeAsync();
        var html = await desk.GetStringAsync(path);
        Assert.DoesNotContain("argin", html, StringComparison.Ordinal);
        Assert.DoesNotContain(".Cost\"", html, StringComparison.Ordinal);
        await desk.SubmitAsync(path, new() { ["Input.Tiers[0].Lines[0].Cost"] = "1", ["Input.NoCancelNoticeBecause"] = "no" }, Edit);
        var kept = await LatestAsync(draft.HouseId);
        Assert.Equal("", kept.NoCancelNoticeBecause);
        Assert.Equal(30_000, kept.Tiers[0].Lines.Single(l => l.Words == "Licensed electrician").UnitCost.Cents);
        Assert.StartsWith("/not-allowed", (await (await office.SignInAsInstallerAsync()).GetAsync(path)).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_quote_of_two_hundred_lines_is_edited_sent_and_printed()
    {
        var draft = await office.DraftedQuoteAsync();
        await office.WithDbAsync(async db =>
        {
            var r = await db.QuoteRevisions.WithPrices().SingleAsync(x => x.Id == draft.RevisionId);
            foreach (var tier in r.Tiers) tier.Lines.AddRange(Enumerable.Range(1, 200).Select(i => new QuoteLine { Position = 100 + i, Words = $"Extra {i}", UnitPrice = new Money(i) }));
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        var saved = await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", new() { ["Input.Scope"] = "Long" }, Edit);
        Assert.Equal(HttpStatusCode.Redirect, saved.StatusCode);
        using var pdf = PdfDocument.Open(await desk.GetByteArrayAsync($"/houses/{draft.HouseId}/quote?handler=Paper&revision={draft.RevisionId}"));
        Assert.Contains("Extra 200", string.Join(' ', pdf.GetPages().Select(p => p.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_words_are_only_words_on_the_sheet_the_list_and_the_offer()
    {
        const string hostile = "\"><svg onload=x></script>'";
        var offer = await office.SendAsync(await office.DraftedQuoteAsync(await office.HouseToQuoteAsync(hostile, hostile)));
        await office.WithDbAsync(db => db.Set<QuoteLine>().ExecuteUpdateAsync(l => l.SetProperty(x => x.Unit, hostile)));
        var desk = await office.SignInAsOfficeAsync();
        foreach (var html in new[] { await desk.GetStringAsync($"/houses/{offer.HouseId}/quote"), await desk.GetStringAsync("/quotes"), await office.Visitor().GetStringAsync(offer.Path) })
            Assert.DoesNotContain("<svg onload", html, StringComparison.Ordinal);
        await office.WithDbAsync(db => db.Set<QuoteLine>().ExecuteUpdateAsync(l => l.SetProperty(x => x.Unit, "each")));
    }

    [Fact]
    public async Task A_house_or_revision_that_does_not_exist_is_not_found()
    {
        var (one, other) = (await office.DraftedQuoteAsync(), await office.DraftedQuoteAsync());
        var desk = await office.SignInAsOfficeAsync();
        foreach (var path in new[] { "/houses/999999/quote", $"/houses/{one.HouseId}/quote?revision={other.RevisionId}", $"/houses/{one.HouseId}/quote?handler=Paper&revision={other.RevisionId}", $"/houses/{one.HouseId}/quote?handler=Signed&revision={one.RevisionId}" })
            Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync(path)).StatusCode);
    }

    private Task<QuoteRevision> LatestAsync(int house) => office.WithDbAsync(db =>
        db.QuoteRevisions.AsNoTracking().WithPrices().Include(r => r.Quote).Where(r => r.Quote!.HouseId == house).OrderByDescending(r => r.Id).FirstAsync());
}
