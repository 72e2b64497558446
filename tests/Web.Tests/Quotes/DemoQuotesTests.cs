using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Changes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Demo;

namespace MitigationOffice.Web.Tests.Quotes;

/// <summary>What the proposals of the invented company look like.</summary>
public sealed class DemoQuotesTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Every_quote_of_the_demo_is_sensible()
    {
        await using (var scope = office.Services.CreateAsyncScope()) await LoadDemo.RunAsync(scope.ServiceProvider, default);
        await office.WithDbAsync(async db =>
        {
            var quotes = await db.QuoteRevisions.AsNoTracking().WithPrices().ToListAsync();
            var codes = await db.PriceItems.ToDictionaryAsync(i => i.Id, i => i.Code);
            Assert.True(quotes.Count >= 10, $"{quotes.Count} quotes");
            foreach (var r in quotes) await SensibleAsync(db, r, codes);
            Assert.Contains(quotes, r => r.Tiers.Exists(t => t.SuctionDesignId is not null));
            var signed = await db.Acceptances.AsNoTracking().ToListAsync();
            Assert.True(signed.Select(a => quotes.Single(r => r.Id == a.QuoteRevisionId).Tiers.Single(t => t.Id == a.QuoteTierId).Position).Distinct().Count() == 3, "Every choice is taken by somebody.");
            Assert.Contains(signed, a => a.DeclinedAddOnIds.Length > 0);
            var (company, book) = (await db.Company.AsNoTracking().SingleAsync(), await db.PriceItems.AsNoTracking().ToListAsync());
            foreach (var draft in quotes.Where(r => r.State == RevisionState.Draft))
            {
                var today = await ReadChanges.OfAsync(db, draft, await db.Quotes.AsNoTracking().SingleAsync(q => q.Id == draft.QuoteId), company, book);
                Assert.DoesNotContain(today.SinceBook, c => c.Where is not "Quote");
            }

            var papers = await db.Documents.AsNoTracking().Where(d => d.Kind == PaperKind.Quote || d.Kind == PaperKind.SignedQuote).Select(d => new { d.Title, Bytes = d.Bytes.Length }).ToListAsync();
            Assert.True(papers.Count > 10);
            Assert.All(papers, p => Assert.True(p.Bytes <= 200 * 1024, $"{p.Title}: {p.Bytes} bytes"));
        });
    }

    private static async Task SensibleAsync(OfficeDb db, QuoteRevision r, Dictionary<int, string> codes)
    {
        var tiers = r.Tiers.OrderBy(t => t.Position).ToList();
        var prices = tiers.Select(t => PriceQuote.Of(r, t, []).Total).ToList();
        Assert.Equal(prices.Order(), prices);
        Assert.InRange(prices[0].Dollars, 1500, 3500);
        Assert.InRange(prices[2].Dollars, prices[0].Dollars, 5000);
        foreach (var tier in tiers)
        {
            var designId = tier.SuctionDesignId ?? r.SuctionDesignId;
            var takeOff = TakeOff.Of(await db.Designs.Where(d => d.Id == designId).SelectMany(d => d.Pieces).AsNoTracking().ToListAsync());
            var lines = tier.Lines.ToDictionary(l => codes[l.PriceItemId!.Value], l => l.Quantity);
            Assert.Equal((takeOff.PipeFeet, (decimal)takeOff.Pipes.Sum(p => p.Supports), (decimal)takeOff.Pipes.Sum(p => p.Joints)), (lines["PIPE4"], lines["HOLD"], lines.GetValueOrDefault("COUP4")));
            Assert.Equal(takeOff.Fittings.Sum(f => f.Count), lines["ELB4"]);
            Assert.Single(lines.Keys, k => k.StartsWith("FAN", StringComparison.Ordinal) && k != "FANFIT");
            Assert.Single(lines.Keys, k => k is "WALL" or "ROOF");
            Assert.DoesNotContain(lines.Keys, k => k is "PIPE3" or "PIPE6" or "PATCH" or "FIRE");
            Assert.InRange(TierMoney.Of(r, tier, new CompanyProfile()).MarginPercent!.Value, 20, 60);
        }

        Assert.All(r.AddOns, a => Assert.NotEmpty(a.Reason));
        Assert.True(r.AddOns.Count(a => a.Recommended && a.OfferedFor is OfferReason.FreezeGuard or OfferReason.Insulation) <= 1);
        Assert.InRange(CostOfOwning.Of(r, tiers[0], []).Total.Dollars, prices[0].Dollars + 200, prices[0].Dollars + 4000);
    }
}
