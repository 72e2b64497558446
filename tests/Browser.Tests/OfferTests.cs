using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using MitigationOffice.Web.Tests.Invoices;
using MitigationOffice.Web.Tests.Quotes;

namespace MitigationOffice.Browser.Tests;

/// <summary>The house owner's pages on a phone: signed with and without script, every step clean for axe and inside 320 px.</summary>
public sealed class OfferTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    [BrowserFact]
    public Task A_quote_is_signed_on_a_phone() => SignAsync(script: true, "Beryl Quill");

    [BrowserFact]
    public Task A_quote_is_signed_on_a_phone_without_script() => SignAsync(script: false, "Tobias Fenn");

    private async Task SignAsync(bool script, string customer)
    {
        var offer = await office.HouseWithSentQuoteAsync(customer);
        var phone = await office.OpenAsync(320, 700, script);
        await phone.GoAsync($"/offer/{offer.Token}");
        await CleanAsync(phone, script);
        await phone.Page.Locator("[name=tier]").First.CheckAsync();
        foreach (var button in new[] { "Next", "Next", "Next: sign" })
        {
            await phone.PressAsync(button);
            await CleanAsync(phone, script);
        }

        await phone.FillAsync(("Input.Consented", "true"), ("Input.TypedName", customer), ("Input.Intended", "true"));
        await phone.PressAsync("Accept and sign");
        await CleanAsync(phone, script);
        Assert.Equal(1, await office.WithDbAsync(db => db.Acceptances.CountAsync(a => a.TypedName == customer)));
        Assert.Empty(phone.Complaints);
    }

    [BrowserFact]
    public Task What_is_recommended_is_declined_on_a_phone() => DeclineOneAsync(script: true, "Ida Thorn");

    [BrowserFact]
    public Task What_is_recommended_is_declined_on_a_phone_without_script() => DeclineOneAsync(script: false, "Otto Reed");

    /// <summary>One addition is taken, the recommended one beside it is not, and that is kept with the signature.</summary>
    private async Task DeclineOneAsync(bool script, string customer)
    {
        var offer = await office.HouseWithSentQuoteAsync(customer);
        var phone = await office.OpenAsync(320, 700, script);
        await phone.GoAsync($"/offer/{offer.Token}");
        await phone.Page.Locator("[name=tier]").First.CheckAsync();
        await phone.PressAsync("Next");
        await phone.Page.GetByLabel("Freeze-guard heat cable").CheckAsync();
        await phone.PressAsync("Next");
        await phone.SeesAsync("Recommended, and not chosen");
        await phone.SeesAsync("Condensate bypass at the fan");
        await CleanAsync(phone, script);
        await phone.PressAsync("Next: sign");
        await phone.FillAsync(("Input.Consented", "true"), ("Input.TypedName", customer), ("Input.Intended", "true"));
        await phone.PressAsync("Accept and sign");
        var kept = await office.WithDbAsync(db => db.Acceptances.AsNoTracking().SingleAsync(a => a.TypedName == customer));
        Assert.NotEqual("", kept.AddOnIds);
        Assert.NotEqual("", kept.DeclinedAddOnIds);

        // Back to the form after signing, and sent again: the first signature stands, and the page says so.
        await phone.GoAsync($"/offer/{offer.Token}?step=sign&tier={offer.TierIds[0]}");
        await phone.SeesAsync("This quote has been accepted");
        Assert.Empty(phone.Complaints);
    }

    [BrowserFact]
    public Task A_quote_is_declined_on_a_phone() => DeclineAsync(script: true, "Nell Birch");

    [BrowserFact]
    public Task A_quote_is_declined_on_a_phone_without_script() => DeclineAsync(script: false, "Hugo Alder");

    private async Task DeclineAsync(bool script, string customer)
    {
        var offer = await office.HouseWithSentQuoteAsync(customer);
        var phone = await office.OpenAsync(320, 700, script);
        await phone.GoAsync($"/offer/{offer.Token}");
        await phone.LeaveByAsync(phone.Page.GetByRole(AriaRole.Link, new() { Name = "Decline this quote" }));
        await CleanAsync(phone, script);
        await phone.FillAsync(("Input.Reason", "We sell the house."));
        await phone.PressAsync("Decline");
        await phone.SeesAsync("This quote has been declined");
        await CleanAsync(phone, script);
        Assert.Equal("We sell the house.", await office.WithDbAsync(db => db.QuoteRevisions.Where(r => r.Id == offer.RevisionId).Select(r => r.DeclineReason).SingleAsync()));
    }

    [BrowserFact]
    public Task A_purchase_is_cancelled_on_a_phone() => CancelAsync(script: true, "Vera Moss");

    [BrowserFact]
    public Task A_purchase_is_cancelled_on_a_phone_without_script() => CancelAsync(script: false, "Emil Heath");

    private async Task CancelAsync(bool script, string customer)
    {
        var offer = await office.HouseWithSentQuoteAsync(customer);
        await office.AcceptedQuoteAsync(offer);
        var phone = await office.OpenAsync(320, 700, script);
        await phone.GoAsync($"/offer/{offer.Token}");
        await CleanAsync(phone, script);
        await phone.LeaveByAsync(phone.Page.GetByRole(AriaRole.Link, new() { Name = "Cancel the purchase" }));
        await CleanAsync(phone, script);
        await PictureAsync(phone, "offer-cancel-320", script);
        await phone.LeaveByAsync(phone.Page.GetByRole(AriaRole.Button, new() { Name = "Cancel the purchase" }));
        await phone.SeesAsync("Type your full name.");
        await CleanAsync(phone, script);
        await phone.FillAsync(("Input.TypedName", customer), ("Input.Cancels", "true"));
        await phone.LeaveByAsync(phone.Page.GetByRole(AriaRole.Button, new() { Name = "Cancel the purchase" }));
        await phone.SeesAsync("This purchase is cancelled");
        await CleanAsync(phone, script);
        Assert.Equal(1, await office.WithDbAsync(db => db.CancelNotices.CountAsync(n => n.TypedName == customer)));
        await phone.GoAsync($"/offer/{offer.Token}/cancel");
        await phone.SeesAsync("This purchase is cancelled");
    }

    [BrowserFact]
    public Task A_change_is_signed_on_a_phone() => ChangeAsync(script: true, "Lena Frost");

    [BrowserFact]
    public Task A_change_is_signed_on_a_phone_without_script() => ChangeAsync(script: false, "Karl Dune");

    private async Task ChangeAsync(bool script, string customer)
    {
        var change = await office.SentChangeAsync(await office.SignedSaleAsync(customer));
        var phone = await office.OpenAsync(320, 700, script);
        await phone.GoAsync(change.Path);
        var order = await office.ChangeAsync(change.ChangeId);
        foreach (var words in new[] { $"{order.OldTotal}", $"+{order.Difference}", $"{order.NewTotal}" }) await phone.SeesAsync(words);
        await CleanAsync(phone, script);
        await PictureAsync(phone, "offer-change-320", script);
        await phone.LeaveByAsync(phone.Page.GetByRole(AriaRole.Link, new() { Name = "Decline this change" }));
        await CleanAsync(phone, script);
        await phone.LeaveByAsync(phone.Page.GetByRole(AriaRole.Link, new() { Name = "Go back to it" }));
        await phone.PressAsync("Next: sign");
        await CleanAsync(phone, script);
        await phone.FillAsync(("Input.Consented", "true"), ("Input.TypedName", customer), ("Input.Intended", "true"));
        await phone.PressAsync("Agree and sign");
        await phone.SeesAsync($"Thank you, {customer}");
        await CleanAsync(phone, script);
        Assert.Equal(1, await office.WithDbAsync(db => db.ChangeSignatures.CountAsync(s => s.TypedName == customer)));
        Assert.Empty(phone.Complaints);
    }

    [BrowserFact]
    public async Task A_tablet_is_handed_over_and_signed_on()
    {
        var at = await office.BegunChangeAsync(await office.SignedSaleAsync("Mara Flint"));
        var tablet = await office.OwnerAtAsync(800);
        await tablet.GoAsync(at.Sheet);
        await CleanAsync(tablet, script: true);
        await PictureAsync(tablet, "change-order-800", script: true);
        await tablet.FillAsync(("Input.Reason", "The wall is thicker than it looked."), ("Input.Added[0].Words", "Second core"), ("Input.Added[0].Price", "90"));
        await tablet.PressAsync("Save and have it signed on this tablet");
        await tablet.PressAsync("Next: sign");
        await tablet.FillAsync(("Input.Consented", "true"), ("Input.TypedName", "Mara Flint"), ("Input.Intended", "true"));
        await tablet.PressAsync("Agree and sign");
        await tablet.SeesAsync("Please hand the tablet back.");
        await CleanAsync(tablet, script: true);
        await tablet.LeaveByAsync(tablet.Page.GetByRole(AriaRole.Link, new() { Name = "Back to the office's page" }));
        await tablet.SeesAsync("on the tablet handed over by Ada Quill");
        await CleanAsync(tablet, script: true);
        var small = await office.OwnerAtAsync(320, scheme: ColorScheme.Dark);
        foreach (var path in new[] { at.Sheet, $"/houses/{at.Sale.HouseId}/work", $"/houses/{at.Sale.HouseId}/money", "/money" })
        {
            await small.GoAsync(path);
            await CleanAsync(small, script: true);
        }
    }

    /// <summary>A mail scanner with a browser of its own opens every link of every page, runs its scripts, and fetches ahead.</summary>
    [BrowserFact]
    public async Task A_mail_scanner_that_follows_every_link_changes_nothing()
    {
        var (offer, accepted) = (await office.HouseWithSentQuoteAsync("Scan One"), await office.HouseWithSentQuoteAsync("Scan Two"));
        await office.AcceptedQuoteAsync(accepted);
        var change = await office.SentChangeAsync(await office.SignedSaleAsync("Scan Three"));
        var before = await RowsAsync();
        var scanner = await office.OpenAsync();
        await scanner.Page.SetExtraHTTPHeadersAsync(new Dictionary<string, string> { ["Sec-Purpose"] = "prefetch", ["Purpose"] = "prefetch" });
        var (left, seen) = (new Queue<string>([$"/offer/{offer.Token}", $"/offer/{accepted.Token}", $"/offer/{accepted.Token}/cancel", change.Path]), new HashSet<string>(StringComparer.Ordinal));
        while (left.TryDequeue(out var path) && seen.Count < 60)
        {
            if (!seen.Add(path)) continue;
            var head = await scanner.Page.APIRequest.FetchAsync(path, new() { Method = "HEAD" });
            Assert.True(head.Status < 500, $"{path}: {head.Status}");
            if (path.EndsWith("/paper", StringComparison.Ordinal))
            {
                await scanner.Page.APIRequest.GetAsync(path);
                continue;
            }

            await scanner.Page.GotoAsync(path);
            foreach (var link in await scanner.Page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('a[href],form[action]')].map(e => new URL(e.getAttribute('href') ?? e.getAttribute('action'), location.href)).filter(u => u.origin === location.origin && u.pathname.startsWith('/offer/')).map(u => u.pathname + u.search)"))
                left.Enqueue(link);
        }

        Assert.True(seen.Count >= 9, string.Join('\n', seen));
        Assert.Equal(before, await RowsAsync());
    }

    private Task<string> RowsAsync() => office.WithDbAsync(async db => string.Join('|',
        await db.Acceptances.CountAsync(), await db.CancelNotices.CountAsync(), await db.CancelledSales.CountAsync(), await db.ChangeSignatures.CountAsync(), await db.Documents.CountAsync(), await db.Outbox.CountAsync(),
        await db.Audit.CountAsync(), await db.Submissions.CountAsync(),
        string.Join(',', await db.QuoteRevisions.OrderBy(r => r.Id).Select(r => $"{r.State} {r.Version}").ToListAsync()), string.Join(',', await db.ChangeOrders.OrderBy(c => c.Id).Select(c => $"{c.State} {c.Version}").ToListAsync())));

    private static Task PictureAsync(BrowserWindow window, string name, bool script) =>
        PagesTests.Pictures is { } folder && script ? window.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true }) : Task.CompletedTask;

    /// <summary>axe is a script of its own, so it looks only where script runs.</summary>
    private static async Task CleanAsync(BrowserWindow phone, bool script)
    {
        Assert.Equal(0, await phone.Page.EvaluateAsync<int>("() => Math.max(0, document.documentElement.scrollWidth - window.innerWidth)"));
        if (!script) return;
        var axe = await phone.Page.RunAxe(new AxeRunOptions { Rules = new() { ["target-size"] = new RuleOptions { Enabled = true } } });
        Assert.True(axe.Violations.Length == 0, phone.Path + ": " + string.Join("; ", axe.Violations.Select(v => $"{v.Id}: {v.Nodes[0].Html}")));
    }
}
