using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Web.Tests.Quotes;

public sealed class SecondPhaseTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task It_is_shown_to_the_house_owner_signed_with_the_quote_and_kept_in_the_evidence()
    {
        var draft = await office.DraftedQuoteAsync();
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync($"/houses/{draft.HouseId}/quote", PhaseVerbs.PhaseTyped(), PhaseVerbs.Edit);
        var offer = await office.SendAsync(draft);
        var visitor = office.Visitor();
        foreach (var step in new[] { "", $"?step=review&tier={offer.TierIds[0]}", $"?step=sign&tier={offer.TierIds[0]}" })
            Assert.Contains("Only if the test after the work shows 4.0 pCi/L or more, until Dec 31, 2026: A second suction point in the den. Price $640.00", await visitor.TextAsync(offer.Path + step), StringComparison.Ordinal);
        var signed = await office.AcceptedQuoteAsync(offer);
        Assert.StartsWith("Only if the test after the work shows 4.0 pCi/L", signed.PhaseText, StringComparison.Ordinal);
        var bytes = await office.WithDbAsync(db => db.Documents.Where(d => d.Id == signed.SignedDocumentId).Select(d => d.Bytes).SingleAsync());
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(bytes);
        var text = string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        Assert.Contains("Second phase, agreed to", text, StringComparison.Ordinal);
        Assert.Contains("A second phase, only if the test asks for it", text, StringComparison.Ordinal);
        Assert.Equal(PhaseState.Waiting, (await office.PhaseAsync(signed.Id)).State);
        Assert.Contains("Waits for the test after the work", await desk.TextAsync($"/houses/{offer.HouseId}/quote"), StringComparison.Ordinal);
        Assert.Empty((await office.WithDbAsync(db => VerifyAcceptances.RunAsync(db))).Problems);
    }

    /// <summary>Common practice, no source: four rooms at 0.8, 0.6, 0.6 and 0.7 pCi/L close it.</summary>
    [Fact]
    public async Task Four_low_rooms_close_it()
    {
        var (offer, signed) = await office.HouseWithSignedPhaseAsync();
        await office.JudgeAsync(offer.HouseId, signed.AtUtc.AddDays(4), ("Den", "0.8", ""), ("Bedroom", "0.6", ""), ("Hall", "0.6", ""), ("Office", "0.7", ""));
        var phase = await office.PhaseAsync(signed.Id);
        Assert.Equal((PhaseState.Closed, 0.8m), (phase.State, phase.DecidingPCiL));
        var page = await (await office.SignInAsOfficeAsync()).TextAsync($"/houses/{offer.HouseId}/quote");
        Assert.Contains("the test showed 0.8 pCi/L, under 4.0 pCi/L. Nothing more is owed.", page, StringComparison.Ordinal);
        Assert.Contains("Kept", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_result_over_the_level_makes_it_due_and_one_click_quotes_it_at_the_price_agreed_once()
    {
        var (offer, signed) = await office.HouseWithSignedPhaseAsync();
        await office.JudgeAsync(offer.HouseId, signed.AtUtc.AddDays(4), ("Den", "4.1", ""));
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Second phases due", await desk.TextAsync("/"), StringComparison.Ordinal);
        var clicks = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => desk.SubmitAsync($"/houses/{offer.HouseId}/quote", [], "#take-up")));
        Assert.Contains(clicks, c => c.StatusCode == HttpStatusCode.Redirect);
        var quotes = await office.WithDbAsync(db => db.QuoteRevisions.AsNoTracking().WithPrices().Include(r => r.Quote).Where(r => r.Quote!.HouseId == offer.HouseId).OrderBy(r => r.Id).ToListAsync());
        Assert.Equal(2, quotes.Count);
        var next = quotes[1];
        Assert.Equal((640_00L, RevisionState.Draft, 640_00L, "The test after the work: 4.1 pCi/L."), (PriceQuote.Of(next, next.Tiers.Single(), []).Net.Cents, next.State, next.AgreedPrice.Cents, next.Answers));
        Assert.Equal(PhaseState.TakenUp, (await office.PhaseAsync(signed.Id)).State);
        Assert.Contains("Taken up", await desk.TextAsync($"/houses/{offer.HouseId}/quote?revision={offer.RevisionId}"), StringComparison.Ordinal);

        await desk.SubmitAsync($"/houses/{offer.HouseId}/quote?revision={next.Id}", new() { ["Input.Tiers[0].Lines[0].Price"] = "900" }, PhaseVerbs.Edit);
        Assert.Contains("$640.00 before tax was agreed for this; “Second phase” asks $900.00.", await desk.TextAsync($"/houses/{offer.HouseId}/quote?revision={next.Id}"), StringComparison.Ordinal);
    }

    /// <summary>Common practice, no source: two devices side by side at 3.8 and 4.1 pCi/L are 3.95, reported as 4.0.</summary>
    [Fact]
    public async Task Two_devices_side_by_side_with_a_mean_of_3_95_open_it()
    {
        var (offer, signed) = await office.HouseWithSignedPhaseAsync();
        await office.JudgeAsync(offer.HouseId, signed.AtUtc.AddDays(4), ("Den", "3.8", "A"), ("Den", "4.1", "A"));
        var phase = await office.PhaseAsync(signed.Id);
        Assert.Equal((PhaseState.Due, 3.95m), (phase.State, phase.DecidingPCiL));
    }

    [Fact]
    public async Task It_lapses_on_its_last_day_and_a_later_result_does_not_bring_it_back()
    {
        var (offer, signed) = await office.HouseWithSignedPhaseAsync("100", "BqPerM3", "5/1/2026");
        office.Clock.SetUtcNow(new DateTimeOffset(2026, 5, 2, 15, 0, 0, TimeSpan.Zero));
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Lapsed", await desk.TextAsync($"/houses/{offer.HouseId}/quote"), StringComparison.Ordinal);
        await office.WithDbAsync(db => SettlePhases.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime));
        Assert.Equal(PhaseState.Lapsed, (await office.PhaseAsync(signed.Id)).State);
        await office.JudgeAsync(offer.HouseId, office.Clock.GetUtcNow().UtcDateTime.AddDays(1), ("Den", "9.9", ""));
        Assert.Equal(PhaseState.Lapsed, (await office.PhaseAsync(signed.Id)).State);
    }

    [Fact]
    public async Task A_return_visit_under_the_guarantee_is_counted_and_no_more_than_were_given()
    {
        var (offer, signed) = await office.HouseWithSignedPhaseAsync();
        await office.JudgeAsync(offer.HouseId, signed.AtUtc.AddDays(4), ("Den", "4.4", ""));
        var desk = await office.SignInAsOfficeAsync();
        var path = $"/houses/{offer.HouseId}/quote?revision={offer.RevisionId}";
        Assert.Contains("Not kept: the last test showed 4.4 pCi/L. A return visit and another test are owed.", await desk.TextAsync(path), StringComparison.Ordinal);
        var today = DateOnly.FromDateTime(office.Clock.GetUtcNow().UtcDateTime);
        var empty = await desk.SubmitAsync(path, new() { ["Visit.On"] = "1/1/2020" }, "#visit");
        Assert.Contains("a return visit comes after that", await empty.TextAsync(), StringComparison.Ordinal);
        foreach (var done in new[] { "Sealed the sump lid.", "<b>Opened the second pit.</b>" })
            Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(path, new() { ["Visit.On"] = TypedNumbers.Plain(today), ["Visit.Done"] = done }, "#visit")).StatusCode);
        Assert.Contains("Free return visits: 2 of 2 used; none is left", await desk.TextAsync(path), StringComparison.Ordinal);
        var third = await desk.SubmitAsync(path, new() { ["Visit.On"] = TypedNumbers.Plain(today), ["Visit.Done"] = "Again." }, "#visit");
        Assert.Contains("All 2 free visits of this guarantee are used.", await third.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(2, await office.WithDbAsync(db => db.ReturnVisits.CountAsync(v => v.AcceptanceId == signed.Id)));
    }
}
