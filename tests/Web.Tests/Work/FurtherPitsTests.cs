using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Work;

public sealed class FurtherPitsTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static WorkFacts Facts(SystemKind kind, params string[] further) => new(kind, 1990, false, kind == SystemKind.SumpOrDrainTileSuction, false, true, false, false, []) { FurtherPits = further };

    [Fact]
    public void The_step_names_every_further_pit_right_after_the_first_is_drawn_and_carries_the_dusts_caution()
    {
        var steps = WorkSteps.For(Facts(SystemKind.SubSlabSuction, "South pit", "Den")).ToList();
        var at = steps.FindIndex(s => s.Code == "further-pits");
        Assert.Equal("Core and hollow out the further suction points too: South pit, Den.", steps[at].Words);
        Assert.Contains("silica", steps[at].Caution, StringComparison.Ordinal);
        Assert.NotEmpty(steps[at].Source);
        Assert.InRange(at, steps.FindIndex(s => s.Code == "pit") + 1, steps.FindIndex(s => s.Code == "pipe") - 1);
    }

    [Theory]
    [InlineData(SystemKind.SubSlabSuction)]
    [InlineData(SystemKind.SumpOrDrainTileSuction, "South pit")]
    [InlineData(SystemKind.SubMembraneSuction, "South pit")]
    public void A_single_pit_and_a_system_that_cores_none_have_no_such_step(SystemKind kind, params string[] further) =>
        Assert.DoesNotContain(WorkSteps.For(Facts(kind, further)), s => s.Code == "further-pits");

    [Fact]
    public async Task A_job_of_a_design_with_branches_asks_for_their_pits()
    {
        var house = await office.HouseWithAcceptedOfferAsync();
        await office.WithDbAsync(async db =>
        {
            var design = new SuctionDesign { HouseId = house.HouseId, Revision = "A", Branches = [new() { Number = 2, Name = "Den" }, new() { Number = 1, Name = "South pit" }] };
            db.Add(design);
            await db.SaveChangesAsync();
            await db.Acceptances.Where(a => a.Id == house.AcceptanceId).ExecuteUpdateAsync(a => a.SetProperty(x => x.SuctionDesignId, design.Id));
        });
        await office.WithDbAsync(db => OpenJob.RunAsync(db, house.AcceptanceId, office.Clock));
        var sheet = await (await office.SignInAsInstallerAsync()).TextAsync($"/houses/{house.HouseId}/work");
        Assert.Contains("Core and hollow out the further suction points too: South pit, Den.", sheet, StringComparison.Ordinal);
    }
}
