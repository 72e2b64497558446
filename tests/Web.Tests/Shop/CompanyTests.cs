using System.Net;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Web.Tests.Shop;

public sealed class CompanyTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task The_owner_saves_the_design_winter_in_fahrenheit_and_it_is_kept_in_celsius()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/company", new() { ["Input.DesignWinter"] = "−20 °F" });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        var kept = await office.WithDbAsync(db => db.Company.Select(c => c.DesignWinterC).SingleAsync());
        Assert.Equal(-28.89, kept, 2);
    }

    [Fact]
    public async Task Absurd_values_are_refused_in_words_and_keep_their_typing()
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/company", new() { ["Input.DesignWinter"] = "900 °F", ["Input.TaxPercent"] = "lots" });
        var html = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("out of range: the temperature must be between", html, StringComparison.Ordinal);
        Assert.Contains("Write the sales tax as a number", html, StringComparison.Ordinal);
        Assert.Contains("900 &#xB0;F", html, StringComparison.Ordinal);
    }

    /// <summary>EPA's action level: 4.0 pCi/L.</summary>
    [Theory]
    [InlineData("4.0", true)]
    [InlineData("4.01", false)]
    public async Task A_promise_above_the_action_level_is_refused_in_words(string level, bool kept)
    {
        var owner = await office.SignInAsOwnerAsync();
        var answer = await owner.SubmitAsync("/shop/company", new() { ["Input.TargetPCiL"] = level });
        Assert.Equal(kept ? HttpStatusCode.Redirect : HttpStatusCode.OK, answer.StatusCode);
        if (!kept) Assert.Contains("must not stand above the EPA action level of 4.0 pCi/L", await answer.TextAsync(), StringComparison.Ordinal);
        Assert.True(await office.WithDbAsync(db => db.Company.AllAsync(c => c.TargetPCiL <= 4.0m)));
    }

    [Fact]
    public async Task A_form_overtaken_by_another_person_shows_both_and_saves_nothing()
    {
        var owner = await office.SignInAsOwnerAsync();
        var before = await office.WithDbAsync(db => db.Company.Select(c => c.Version).SingleAsync());
        await owner.SubmitAsync("/shop/company", new() { ["Input.Phone"] = "555-0111" });
        var late = await owner.SubmitAsync("/shop/company", new() { ["Input.Phone"] = "555-0199", ["Version"] = $"{before}" });
        var text = await late.TextAsync();
        Assert.Contains("Someone else saved this since you opened it", text, StringComparison.Ordinal);
        Assert.Contains("They saved “555-0111”; you wrote “555-0199”.", text, StringComparison.Ordinal);
        Assert.Equal("555-0111", await office.WithDbAsync(db => db.Company.Select(c => c.Phone).SingleAsync()));
    }

    [Fact]
    public async Task An_installer_may_not_open_the_company_page()
    {
        var crew = await office.SignInAsInstallerAsync();
        var answer = await crew.GetAsync("/shop/company");
        Assert.StartsWith("/not-allowed", answer.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_change_is_in_the_audit_trail_with_who_made_it()
    {
        var owner = await office.SignInAsOwnerAsync();
        await owner.SubmitAsync("/shop/company", new() { ["Input.QuoteTerms"] = "Paid on the day." });
        var told = await office.WithDbAsync(db => db.Audit.OrderByDescending(a => a.Id).FirstAsync());
        Assert.Equal("Ada Quill", told.By);
        Assert.Contains("Paid on the day.", told.Changes, StringComparison.Ordinal);
        Assert.Empty((await office.WithDbAsync(db => Business.Data.VerifyRecords.RunAsync(db))).Problems);
    }
}
