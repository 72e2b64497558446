using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Quotes;

public sealed class ChangesTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string Edit = PhaseVerbs.Edit;

    [Fact]
    public async Task A_revision_says_line_by_line_what_changed_and_takes_today_s_prices_when_asked()
    {
        var offer = await office.HouseWithSentQuoteAsync();
        var owner = await office.SignInAsOwnerAsync();
        var pipe = await office.WithDbAsync(db => db.PriceItems.AsNoTracking().SingleAsync(p => p.Code == "PIPE4"));
        var answer = await owner.SubmitAsync($"/shop/prices/{pipe.Id}", new() { ["Input.Cost"] = "4.00" }, "main form[method=post]");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        await owner.SubmitAsync("/shop/prices/new", new() { ["Input.Code"] = $"MESH{offer.RevisionId}", ["Input.Name"] = "Critter guard of mesh", ["Input.Cost"] = "12", ["Input.MarkupPercent"] = "50" }, "main form[method=post]");
        await owner.SubmitAsync($"/houses/{offer.HouseId}/quote", [], "#revise");
        var path = $"/houses/{offer.HouseId}/quote";
        var page = await owner.TextAsync(path);
        // Pipe: 3.21 × 1.6 + 4/60 × 95 = 11.47 before; 4.00 × 1.6 + 6.33 = 12.73 now.
        Assert.Contains("4 in pipe $11.47 a ft → $12.73 a ft", page, StringComparison.Ordinal);
        Assert.Contains("Critter guard of mesh new → new: $18.00 a piece", page, StringComparison.Ordinal);
        await owner.SubmitAsync(path, new() { ["Input.Tiers[0].Lines[0].Quantity"] = "2", ["Input.Tiers[0].DiscountPercent"] = "10", ["Input.Tiers[0].DiscountReason"] = "neighbor's job" }, Edit);
        await owner.SubmitAsync(path, [], "#todays");
        page = await owner.TextAsync(path);
        foreach (var words in new[] { "Changed since revision A", "Sound: 4 in pipe 1 ft × $11.47 = $11.47 + tax → 2 ft × $12.73 = $25.46 + tax", "Sound: Discount new → 10 %" }) Assert.Contains(words, page, StringComparison.Ordinal);
        Assert.DoesNotContain("a ft → $12.73 a ft", page, StringComparison.Ordinal);
        var history = await owner.TextAsync("/shop/prices/history");
        Assert.Contains("$11.47", history, StringComparison.Ordinal);
        Assert.Contains("$12.73", history, StringComparison.Ordinal);
        Assert.DoesNotContain("$4.00", await (await office.SignInAsOfficeAsync()).TextAsync("/shop/prices/history"), StringComparison.Ordinal);
        var draft = await office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.QuoteId == offer.QuoteId).OrderByDescending(r => r.Id).FirstAsync());
        Assert.Equal(await office.WithDbAsync(db => db.PriceBookVersions.MaxAsync(v => v.Number)), draft.PriceBookVersion);
    }

    [Fact]
    public async Task Discounts_are_refused_over_a_hundred_percent_shown_signed_and_invoiced_to_the_cent()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        var path = $"/houses/{draft.HouseId}/quote";
        var refused = await desk.SubmitAsync(path, new() { ["Input.DiscountPercent"] = "120", ["Input.Tiers[1].DiscountPercent"] = "5", ["Input.Tiers[1].DiscountAmount"] = "10" }, Edit);
        var text = await refused.TextAsync();
        Assert.Contains("The discount must be between 0 and 100; you wrote 120.", text, StringComparison.Ordinal);
        Assert.Contains("Write the discount as a share or as an amount, not both.", text, StringComparison.Ordinal);
        await desk.SubmitAsync(path, new() { ["Input.Tiers[1].DiscountPercent"] = "7.5", ["Input.DiscountAmount"] = "33.33", ["Input.DiscountReason"] = "<script>alert(1)</script>" }, Edit);
        Assert.Contains("Say why there is a discount on “Sure”.", await desk.TextAsync(path), StringComparison.Ordinal);
        await desk.SubmitAsync(path, new() { ["Input.Tiers[1].DiscountReason"] = "off season" }, Edit);
        var offer = await office.SendAsync(draft);
        var html = await office.Visitor().GetStringAsync($"{offer.Path}?step=review&tier={offer.TierIds[1]}");
        Assert.Contains("Discount on Sure, 7.5 %: off season", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>alert", html, StringComparison.Ordinal);
        var signed = await office.AcceptedQuoteAsync(offer);
        Assert.True(signed.Discount > Money.Zero);
        var bill = await office.WithDbAsync(async db => (await BillQuote.ReadAsync(db, signed.Id))!.Draft(InvoiceKind.Balance));
        Assert.Null(bill.Problem);
        Assert.Equal((signed.Net, signed.Tax, signed.Total), (bill.Draft!.Net, bill.Draft.Tax, bill.Draft.Total));
    }

    [Fact]
    public async Task Expired_licences_and_tax_rates_that_disagree_are_gaps_with_a_link()
    {
        var draft = await office.DraftedQuoteAsync();
        await office.WithDbAsync(async db =>
        {
            db.Licences.AddRange(new Licence { Holder = "Cleo Marsh", Number = "MN-9", IssuedBy = "The state", ExpiresOn = new DateOnly(2026, 1, 31) }, new Licence { Holder = "Ada Quill", Number = "MN-1", IssuedBy = "The state", ExpiresOn = new DateOnly(2025, 1, 31) }, new Licence { Holder = "Ada Quill", Number = "MN-2", IssuedBy = "The state", ExpiresOn = new DateOnly(2099, 1, 31) });
            db.TaxRates.Add(new TaxRate { Name = "State sales tax", Percent = 6.5m, Kinds = "Material,Other", ValidFrom = new DateOnly(2020, 1, 1), ValidTo = new DateOnly(2026, 2, 28) });
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        var path = $"/houses/{draft.HouseId}/quote";
        var html = await desk.GetStringAsync(path);
        Assert.Contains("<a href=\"/shop/licences\">The licence MN-9 of Cleo Marsh ended on Jan 31, 2026.", html, StringComparison.Ordinal);
        Assert.DoesNotContain("MN-1 of Ada", html, StringComparison.Ordinal);
        Assert.Contains("<a href=\"/money/tax-rates\">Material was taxed by", html, StringComparison.Ordinal);
        await office.WithDbAsync(async db =>
        {
            db.TaxRates.Add(new TaxRate { Name = "State sales tax", Percent = 7m, Kinds = "Material,Other", ValidFrom = new DateOnly(2026, 3, 1) });
            await db.SaveChangesAsync();
        });
        Assert.Contains("The quote charges 6.875 % of sales tax; the tax rates that hold on", await desk.TextAsync(path), StringComparison.Ordinal);
        await office.WithDbAsync(async db =>
        {
            await db.TaxRates.ExecuteDeleteAsync();
            await db.Licences.ExecuteDeleteAsync();
        });
    }

    [Fact]
    public async Task Under_the_owner_s_floor_or_margin_only_the_owner_sends_and_only_the_owner_sees_why()
    {
        var draft = await office.DraftedQuoteAsync();
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.LeastMarginPercent, 95m).SetProperty(x => x.OverheadPercent, 12m)));
        var (desk, owner) = (await office.SignInAsOfficeAsync(), await office.SignInAsOwnerAsync());
        var path = $"/houses/{draft.HouseId}/quote";
        var refused = await desk.SubmitAsync(path, [], "#send");
        Assert.Contains("This quote is under the owner's price floor or margin rule.", await refused.TextAsync(), StringComparison.Ordinal);
        var (seen, shown) = (await desk.TextAsync(path), await owner.TextAsync(path));
        Assert.DoesNotContain("of its price; the rule is 95 %", seen, StringComparison.Ordinal);
        Assert.DoesNotContain("Hours of labor", seen, StringComparison.Ordinal);
        Assert.Contains("of its price; the rule is 95 %", shown, StringComparison.Ordinal);
        Assert.Contains("Overhead, 12 % of that", shown, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync(path, [], "#send")).StatusCode);
        await office.WithDbAsync(db => db.Company.ExecuteUpdateAsync(c => c.SetProperty(x => x.LeastMarginPercent, 0m)));
    }

    [Fact]
    public async Task Ten_thousand_lines_and_sums_that_overflow_are_refused_in_words()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        var path = $"/houses/{draft.HouseId}/quote";
        var much = await desk.SubmitAsync(path, new() { ["Input.Tiers[0].Lines[0].Price"] = "1000000", ["Input.Tiers[0].Lines[0].Quantity"] = "100000" }, Edit);
        Assert.Contains("A choice comes to more than $10,000,000.00.", await much.TextAsync(), StringComparison.Ordinal);
        await office.WithDbAsync(async db =>
        {
            db.Audited = false;
            var tier = await db.Set<QuoteTier>().FirstAsync(t => t.QuoteRevisionId == draft.RevisionId && t.Position == 1);
            tier.Lines.AddRange(Enumerable.Range(1, 10_000).Select(i => new QuoteLine { Position = 100 + i, Words = $"Extra {i}", UnitPrice = new Money(1) }));
            await db.SaveChangesAsync();
        });
        var sent = await office.WithDbAsync(async db => await SendQuote.NowAsync(db, draft.RevisionId, await db.QuoteRevisions.Where(r => r.Id == draft.RevisionId).Select(r => r.Version).SingleAsync(), await office.LetterheadAsync(db), office.Clock, "Ada Quill"));
        Assert.Contains(sent.Gaps, g => g.Words.StartsWith("“Sound” has 100", StringComparison.Ordinal) && g.Words.Contains("at most 400 fit on its invoice", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Closing_asks_for_the_reason_and_what_sells_counts_it()
    {
        var (lost, told, won) = (await office.HouseWithSentQuoteAsync(), await office.HouseWithSentQuoteAsync(), await office.HouseWithSentQuoteAsync());
        var desk = await office.SignInAsOfficeAsync();
        var empty = await desk.SubmitAsync($"/houses/{lost.HouseId}/quote", [], "#lost");
        Assert.Contains("Choose why this quote is closed.", await empty.TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync($"/houses/{lost.HouseId}/quote", new() { ["Lost.Because"] = "SomeoneElse", ["Lost.Note"] = "A cousin has a drill." }, "#lost");
        Assert.Contains("Declined, because: someone else does the work. A cousin has a drill.", await desk.TextAsync($"/houses/{lost.HouseId}/quote"), StringComparison.Ordinal);
        await office.Visitor().SubmitAsync($"{told.Path}?step=decline", new() { ["Input.Because"] = "Price", ["Input.Reason"] = "too dear" }, "form[action*=Decline]");
        office.Clock.Advance(TimeSpan.FromDays(3));
        var signed = await office.AcceptedQuoteAsync(won);
        desk = await office.SignInAsOfficeAsync();
        var page = await desk.TextAsync("/quotes/sales");
        Assert.Contains("someone else does the work", page, StringComparison.Ordinal);
        Assert.Contains("the price", page, StringComparison.Ordinal);
        Assert.Contains($"{signed.Total} with tax", page, StringComparison.Ordinal);
        Assert.Contains("Sure: taken 1 of", page, StringComparison.Ordinal);
        Assert.Contains("choice,Sure,", await desk.GetStringAsync("/quotes/sales?handler=Csv"), StringComparison.Ordinal);
        Assert.Contains("The last day comes before the first.", await desk.TextAsync("/quotes/sales?from=5/1/2026&to=4/1/2026"), StringComparison.Ordinal);
        Assert.Contains("No quote was sent in these days.", await desk.TextAsync("/quotes/sales?from=1/1/2001&to=2/1/2001"), StringComparison.Ordinal);
    }
}
