using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Web.Tests.FollowUp;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Quotes;

/// <summary>A house whose owner signed a quote with a second phase at 4.0 pCi/L, and whose system runs.</summary>
public static class PhaseVerbs
{
    public const string Edit = "form[action*='/quote?revision']";

    public static Dictionary<string, string> PhaseTyped(string level = "4.0", string unit = "PCiPerL", string until = "12/31/2026") => new()
    {
        ["Input.Phase.Level"] = level, ["Input.Phase.Unit"] = unit, ["Input.Phase.ValidUntil"] = until, ["Input.Phase.Scope"] = "A second suction point in the den.", ["Input.Phase.Price"] = "640",
    };

    public static async Task<(OfferOut Offer, Acceptance Signed)> HouseWithSignedPhaseAsync(this OfficeApp office, string level = "4.0", string unit = "PCiPerL", string until = "12/31/2026")
    {
        var draft = await office.DraftedQuoteAsync();
        var saved = await (await office.SignInAsOfficeAsync()).SubmitAsync($"/houses/{draft.HouseId}/quote", PhaseTyped(level, unit, until), Edit);
        Assert.True(saved.StatusCode == HttpStatusCode.Redirect, await saved.TextAsync());
        var offer = await office.SendAsync(draft);
        var signed = await office.AcceptedQuoteAsync(offer);
        await office.WithDbAsync(async db =>
        {
            db.Systems.Add(FollowUpVerbs.ASystem(offer.HouseId, signed.AtUtc.AddDays(2)));
            await db.SaveChangesAsync();
        });
        return (offer, signed);
    }

    /// <summary>A test of the rooms named, judged through its page; two rooms with a pair word are devices side by side.</summary>
    public static async Task JudgeAsync(this OfficeApp office, int houseId, DateTime startUtc, params (string Room, string Result, string Pair)[] devices)
    {
        var start = TimeZoneInfo.ConvertTimeFromUtc(startUtc, TimeZoneInfo.FindSystemTimeZoneById("America/Chicago"));
        var (closed, end) = (start.AddHours(-15), start.AddHours(50));
        if (office.Clock.GetUtcNow().UtcDateTime < startUtc.AddHours(60)) office.Clock.SetUtcNow(new DateTimeOffset(startUtc.AddHours(60), TimeSpan.Zero));
        var typed = new Dictionary<string, string>();
        foreach (var (name, at) in new[] { ("Closed", closed), ("Started", start), ("Ended", end) })
            (typed[$"Input.{name}.Day"], typed[$"Input.{name}.Time"]) = (at.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), at.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture));
        var desk = await office.SignInAsOfficeAsync();
        // Two rows stand ready; more come with every save.
        for (var have = 2; have < devices.Length; have += 2)
        {
            for (var i = 0; i < have; i++) Device(i);
            var kept = await desk.SubmitAsync(await PathAsync(), typed, "main form[method=post]");
            Assert.True(kept.StatusCode == HttpStatusCode.Redirect, await kept.TextAsync());
        }

        for (var i = 0; i < devices.Length; i++) Device(i);
        var judged = await desk.SubmitAsync(await PathAsync(), typed, "main form[method=post]", "button[formaction]");
        Assert.True(judged.StatusCode == HttpStatusCode.Redirect, await judged.TextAsync());

        void Device(int i)
        {
            (typed[$"Input.Devices[{i}].Kind"], typed[$"Input.Devices[{i}].Room"], typed[$"Input.Devices[{i}].Serial"], typed[$"Input.Devices[{i}].Result"]) = ("Charcoal", devices[i].Room, $"C-{houseId}-{i}", devices[i].Result);
            if (devices[i].Pair.Length == 0) return;
            typed[$"Input.Devices[{i}].Pair"] = devices[i].Pair;
            if (i > 0 && devices[i - 1].Pair == devices[i].Pair) typed[$"Input.Devices[{i}].ApartBy"] = "5";
        }

        async Task<string> PathAsync()
        {
            var open = await office.WithDbAsync(db => db.RadonTests.Where(t => t.HouseId == houseId && t.JudgedAtUtc == null).Select(t => (int?)t.Id).FirstOrDefaultAsync());
            return $"/houses/{houseId}/proof/test" + (open is { } id ? $"?test={id}" : "");
        }
    }

    public static Task<SecondPhase> PhaseAsync(this OfficeApp office, int acceptanceId) => office.WithDbAsync(db => db.SecondPhases.AsNoTracking().SingleAsync(p => p.AcceptanceId == acceptanceId));
}
