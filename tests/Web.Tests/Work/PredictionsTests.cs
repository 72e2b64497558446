using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Tests.Design;

namespace MitigationOffice.Web.Tests.Work;

public sealed class PredictionsTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    /// <summary>Hyndman and Fan (1996), definition 7, which common spreadsheets use too; by hand: of 1, 2, 4, 8 the place of the lower
    /// quartile is 0.75, so 1 + 0.75 × (2 − 1) = 1.75.</summary>
    [Theory]
    [InlineData(0.25, 1.75)]
    [InlineData(0.5, 3)]
    [InlineData(0.75, 5)]
    public void Quartiles_lie_between_the_ordered_values(double share, double value) => Assert.Equal(value, Spread.At([1, 2, 4, 8], share), 12);

    [Fact]
    public async Task Foreseen_stands_beside_measured_and_a_correction_is_taken_only_with_a_reason()
    {
        var (sheetHouse, _) = await office.HouseWithDesignAsync();
        double[] ratios = [0.8, 0.9, 0.95, 1.0, 1.3];
        foreach (var ratio in ratios.Take(4)) await StartedAsync(ratio);
        var owner = await office.SignInAsOwnerAsync();
        var few = await owner.TextAsync("/work/predictions");
        Assert.Contains("4 houses speak for it", few, StringComparison.Ordinal);
        Assert.DoesNotContain("Switch it on", few, StringComparison.Ordinal);
        await StartedAsync(ratios[4]);
        await StartedAsync(0.1, fan: "Another");
        var text = await owner.TextAsync("/work/predictions");
        Assert.Contains("× 0.95", text, StringComparison.Ordinal);
        Assert.Contains("× 0.90 to × 1.00", text, StringComparison.Ordinal);
        Assert.Contains("Another was fitted", text, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, "/work/predictions");
        Assert.DoesNotContain("own correction", await owner.TextAsync($"/houses/{sheetHouse}/design"), StringComparison.Ordinal);

        var refused = await owner.SubmitAsync("/work/predictions", new() { ["reason"] = " " }, form: "form:has(#reason-StartUpSuction)");
        Assert.Contains("Not switched on", await refused.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(0, await office.WithDbAsync(db => db.OwnCorrections.CountAsync()));
        var desk = await office.SignInAsOfficeAsync();
        Assert.DoesNotContain("Switch it on", await desk.TextAsync("/work/predictions"), StringComparison.Ordinal);

        var done = await owner.SubmitAsync("/work/predictions", new() { ["reason"] = "Our fans run on long cables" }, form: "form:has(#reason-StartUpSuction)");
        Assert.Equal(HttpStatusCode.Redirect, done.StatusCode);
        var sheet = await owner.TextAsync($"/houses/{sheetHouse}/design");
        Assert.Contains("By the company’s own correction", sheet, StringComparison.Ordinal);
        Assert.Contains("× 0.95", sheet, StringComparison.Ordinal);
        Assert.Contains("Our fans run on long cables", sheet, StringComparison.Ordinal);
        await office.AssertFewStatementsAsync(owner, $"/houses/{sheetHouse}/design");
        await owner.SubmitAsync("/work/predictions", new(), form: "form[action*='handler=Off']");
        Assert.DoesNotContain("own correction", await owner.TextAsync($"/houses/{sheetHouse}/design"), StringComparison.Ordinal);
        Assert.Equal(1, await office.WithDbAsync(db => db.OwnCorrections.CountAsync(c => c.OffAtUtc != null)));
        var csv = await owner.GetStringAsync("/work/predictions?handler=csv");
        Assert.Equal(6, csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Contains(",0.950\r\n", csv, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_installer_does_not_see_the_companys_bias()
    {
        var answer = await (await office.SignInAsInstallerAsync()).GetAsync("/work/predictions");
        Assert.Contains("not-allowed", answer.Headers.Location!.OriginalString, StringComparison.Ordinal);
    }

    /// <summary>A house with a computed design whose system started at a share of the suction foreseen.</summary>
    private async Task StartedAsync(double ratio, string? fan = null)
    {
        var (house, design) = await office.HouseWithDesignAsync();
        await office.WithDbAsync(async db =>
        {
            var foreseen = ForeseenSuction.Of(await db.Designs.Where(d => d.Id == design).Select(d => d.ReportJson).SingleAsync());
            db.Systems.Add(new InstalledSystem
            {
                HouseId = house, SuctionDesignId = design, TagNumber = $"P-{design}", CompletedOn = new DateOnly(2026, 1, 1).AddDays(design),
                ActivatedAtUtc = new DateTime(2026, 1, 1, 12, 0, 0, DateTimeKind.Utc).AddDays(design), StartUpGaugePa = foreseen.PitPa!.Value * ratio,
                Components = [new SystemComponent { Kind = ComponentKind.Fan, Model = fan ?? foreseen.Fan, FittedOn = new DateOnly(2026, 1, 1) }],
            });
            await db.SaveChangesAsync();
        });
    }
}
