using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Web.Tests.Quotes;

namespace MitigationOffice.Browser.Tests;

/// <summary>The house owner's pages on a phone: signed with and without script, every step clean for axe and inside 320 px.</summary>
public sealed class OfferTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    [BrowserFact]
    public Task A_quote_is_signed_on_a_phone() => SignAsync(script: true, "Rosalind Quill");

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

    /// <summary>axe is a script of its own, so it looks only where script runs.</summary>
    private static async Task CleanAsync(BrowserWindow phone, bool script)
    {
        Assert.Equal(0, await phone.Page.EvaluateAsync<int>("() => Math.max(0, document.documentElement.scrollWidth - window.innerWidth)"));
        if (!script) return;
        var axe = await phone.Page.RunAxe(new AxeRunOptions { Rules = new() { ["target-size"] = new RuleOptions { Enabled = true } } });
        Assert.True(axe.Violations.Length == 0, phone.Path + ": " + string.Join("; ", axe.Violations.Select(v => $"{v.Id}: {v.Nodes[0].Html}")));
    }
}
