using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Jobs;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Endurance;

/// <summary>The jobs process without its web pages and its scheduler: the program's own job, called as fast as it goes. It makes
/// itself ready, waits for a line with the instant at which its clock begins, and works until it is killed; or, asked to drain, until
/// nothing is due, says so, and waits for the next line.</summary>
public static class Pump
{
    public static ServiceProvider Services(PumpOrders orders, TimeProvider clock)
    {
        var services = new ServiceCollection();
        var folder = DataFolder.Choose(orders.Folder, null, demo: false);
        services.AddLogging(l => l.SetMinimumLevel(LogLevel.None));
        services.AddSingleton(folder).AddSingleton<FolderLock>().AddSingleton(clock);
        services.AddOfficeDatabase(orders.Settings(), folder);
        services.AddOfficeMail(orders.Settings(), folder);
        services.AddScoped<PumpMailJob>();
        return services.BuildServiceProvider();
    }

    public static async Task<int> RunAsync(PumpOrders orders)
    {
        var clock = new LateClock();
        await using var services = Services(orders, clock);
        await WarmAsync(services);
        Console.WriteLine("ready");
        var started = false;
        while (await Console.In.ReadLineAsync() is { } begin)
        {
            clock.BeginAt(DateTime.Parse(begin.Split(' ')[0], CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind));
            if (!started) await StartAsync(services);
            started = true;
            await WorkAsync(services, clock, begin.EndsWith(" drain", StringComparison.Ordinal));
            Console.WriteLine("idle");
        }

        return 0;
    }

    private static async Task WorkAsync(ServiceProvider services, LateClock clock, bool stopWhenIdle)
    {
        while (true)
        {
            await using var scope = services.CreateAsyncScope();
            await scope.ServiceProvider.GetRequiredService<PumpMailJob>().RunAsync(CancellationToken.None);
            if (stopWhenIdle && !await AnythingAsync(scope.ServiceProvider.GetRequiredService<OfficeDb>(), clock.GetUtcNow().UtcDateTime)) return;
        }
    }

    /// <summary>What the program does when it starts: takes the folder, and gives up the claims of the one before.</summary>
    private static async Task StartAsync(ServiceProvider services)
    {
        await using var scope = services.CreateAsyncScope();
        if (!scope.ServiceProvider.GetRequiredService<OfficeDb>().Database.IsSqlite()) return;
        services.GetRequiredService<FolderLock>().Take(services.GetRequiredService<DataFolder>());
        await scope.ServiceProvider.GetRequiredService<SendOutbox>().GiveUpAllClaimsAsync();
    }

    /// <summary>Reads what the job reads and renders a message, so that a short life is spent sending; changes nothing.</summary>
    private static async Task WarmAsync(ServiceProvider services)
    {
        await using var scope = services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
        await db.Outbox.AsNoTracking().Where(m => m.State == DeliveryState.Waiting).OrderBy(m => m.Id).FirstOrDefaultAsync();
        await db.Reminders.AsNoTracking().OrderBy(m => m.Id).FirstOrDefaultAsync();
        var (company, rule) = (await db.Company.AsNoTracking().SingleAsync(), await db.ReminderRules.AsNoTracking().FirstAsync(r => r.Code == SeedReminderRules.Retest));
        var reader = (await ReminderLetter.ReadersAsync(db, [1], company))[1];
        var reminder = new Reminder { HouseId = 1, RuleCode = rule.Code, Key = "none", Because = "Nothing." };
        RenderMail.Bytes(Letterhead.Of(company, services.GetRequiredService<MailSettings>()), KillRun.Begin, ReminderLetter.Of([new(reminder, rule)], reader, company), null);
    }

    private static async Task<bool> AnythingAsync(OfficeDb db, DateTime now) =>
        await db.Outbox.AnyAsync(m => m.NextTryUtc <= now && (m.State == DeliveryState.Waiting || (m.State == DeliveryState.Uncertain && m.ResentAtUtc == null)))
        && !await db.OutboxGates.AnyAsync(g => g.PausedUntilUtc > now);
}

/// <summary>A clock that begins where it is told and then runs as the machine's does.</summary>
public sealed class LateClock : TimeProvider
{
    private TimeSpan _ahead;

    public void BeginAt(DateTime utc) => _ahead = utc - System.GetUtcNow().UtcDateTime;

    public override DateTimeOffset GetUtcNow() => System.GetUtcNow() + _ahead;
}
