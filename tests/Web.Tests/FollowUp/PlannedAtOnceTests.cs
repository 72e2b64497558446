using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>Reminders stand on the house's sheet as soon as its facts do; the hourly plan finds nothing left to add.</summary>
public sealed class PlannedAtOnceTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_system_put_on_record_and_a_test_judged_plan_their_reminders()
    {
        var (houseId, _, _) = await office.HouseWithRunningSystemAsync();
        var afterWork = await PlannedAsync(houseId);
        Assert.NotEmpty(afterWork);
        Assert.Equal(0, (await PlanAsync()).Planned);
        var (proved, _, _) = await office.HouseWithPassedTestAsync();
        Assert.NotEqual(afterWork, await PlannedAsync(proved));
        Assert.Equal(0, (await PlanAsync(proved)).Planned);
    }

    private Task<List<string>> PlannedAsync(int houseId) => office.WithDbAsync(db =>
        db.Reminders.Where(r => r.HouseId == houseId && r.State == ReminderState.Planned).Select(r => r.RuleCode).Order().ToListAsync());

    private Task<PlanRound> PlanAsync(int? houseId = null) =>
        office.WithDbAsync(db => PlanReminders.RunAsync(db, office.Clock.GetUtcNow().UtcDateTime, houseId, CancellationToken.None));
}
