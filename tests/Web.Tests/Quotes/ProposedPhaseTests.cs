using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Quotes;

[Trait("Database", "either")]
public sealed class ProposedPhaseTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_second_phase_is_proposed_from_the_price_book_when_asked_and_stays_editable()
    {
        var draft = await office.DraftedQuoteAsync();
        var (desk, path) = (await office.SignInAsOfficeAsync(), $"/houses/{draft.HouseId}/quote");
        var typed = new Dictionary<string, string> { ["proposePhase"] = "true", ["Input.Scope"] = "A pit and a pipe, typed just now." };
        var refused = await desk.SubmitAsync(path, typed, PhaseVerbs.Edit);
        var text = await refused.Content.ReadAsStringAsync();
        Assert.Contains("Your price book holds no further suction point to propose", text, StringComparison.Ordinal);
        Assert.Contains("A pit and a pipe, typed just now.", text, StringComparison.Ordinal);

        await office.WithDbAsync(async db =>
        {
            db.PriceItems.Add(new PriceItem { Code = "HOLE2", Name = "Second suction point", Use = PriceUse.AddOn, Rule = PriceRule.Fixed, FixedPrice = Money.FromDollars(420), Cost = Money.FromDollars(150), TakenBy = TakenBy.SuctionPoint, OfferedFor = OfferReason.ExtraSuctionPoint, Reason = "A footing parts the slab." });
            await db.SaveChangesAsync();
        });
        var saved = await desk.SubmitAsync(path, typed, PhaseVerbs.Edit);
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        var phase = await PhaseAsync(draft.RevisionId);
        Assert.Equal((4.0m, RadonUnit.PCiPerL, 420_00, 150_00, false), (phase.Level, phase.Unit, phase.Price.Cents, phase.Cost.Cents, phase.Taxable));
        Assert.Equal("One more suction point, joined to the system: Second suction point. The house is tested again afterwards.", phase.Scope);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(path, new() { ["Input.Phase.Price"] = "399" }, PhaseVerbs.Edit)).StatusCode);
        Assert.Equal(399_00, (await PhaseAsync(draft.RevisionId)).Price.Cents);
    }

    private Task<QuotePhase> PhaseAsync(int revision) => office.WithDbAsync(async db =>
        (await db.QuoteRevisions.AsNoTracking().WithPrices().SingleAsync(r => r.Id == revision)).Phase!);
}
