using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.FollowUp;

namespace MitigationOffice.Endurance;

/// <summary>How long the plan of many houses takes, and the list of one day. The records may be kept, to walk through so large an office with
/// <c>serve --data</c>, after the verb <c>user add</c>.</summary>
public static class MeasurePlan
{
    public static async Task<int> RunAsync(int houses, string? keep)
    {
        var folder = keep is null ? Directory.CreateTempSubdirectory("office-plan-").FullName : Directory.CreateDirectory(keep).FullName;
        var server = ThrowAwayDatabase.FromEnvironment();
        if (server is not null) await server.MakeAsync();
        await using (var office = Pump.Services(new PumpOrders(folder, server?.ConnectionString ?? "", 25), TimeProvider.System))
        {
            await FillOffice.FillAsync(office, houses, KillRun.Begin, everyRule: true);
            Say($"{(server is null ? "SQLite" : "PostgreSQL")}, {houses} houses");
            var first = await TimedAsync(office, db => PlanReminders.RunAsync(db, KillRun.Begin));
            Say($"first plan: {first.Result.Planned} reminders in {first.Seconds:0.0} s, {first.Cpu:0.0} s of processor");
            for (var again = 0; again < 3; again++)
            {
                var same = await TimedAsync(office, db => PlanReminders.RunAsync(db, KillRun.Begin.AddHours(1)));
                Say($"plan again: {same.Result.Planned + same.Result.Moved + same.Result.Replaced} changes in {same.Seconds:0.0} s, {same.Cpu:0.0} s of processor");
            }

            await SettleThePastAsync(office);
            var warm = await TimedAsync(office, async db => { await DueReminder.WarmUpAsync(db, KillRun.Begin); return true; });
            Say($"the list as the program reads it when it starts: {warm.Seconds * 1000:0} ms, {warm.Cpu * 1000:0} ms of processor");
            for (var again = 0; again < 5; again++)
            {
                var due = await TimedAsync(office, DueTodayAsync);
                Say($"one day's list: {due.Result} due in {due.Seconds * 1000:0} ms, {due.Cpu * 1000:0} ms of processor");
            }
        }

        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (server is not null) await server.DropAsync();
        if (keep is null) Directory.Delete(folder, recursive: true);
        return 0;
    }

    /// <summary>What came due before today was said, so that the list is that of one day.</summary>
    private static async Task SettleThePastAsync(ServiceProvider office)
    {
        await using var scope = office.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
        var today = DateOnly.FromDateTime(KillRun.Begin);
        await db.WriteAsync(() => db.Reminders.Where(r => r.SendOn < today).ExecuteUpdateAsync(s => s.SetProperty(r => r.State, ReminderState.Sent)));
    }

    private static async Task<int> DueTodayAsync(OfficeDb db)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var rules = await db.ReminderRules.AsNoTracking().ToDictionaryAsync(r => r.Code, StringComparer.Ordinal);
        return (await DueReminder.ReadAsync(db, company, rules, DateOnly.FromDateTime(KillRun.Begin))).Count;
    }

    /// <summary>By the clock, and what this process used of the processors (user and system), which other work on the machine does not stretch.</summary>
    private static async Task<(T Result, double Seconds, double Cpu)> TimedAsync<T>(ServiceProvider office, Func<OfficeDb, Task<T>> act)
    {
        await using var scope = office.CreateAsyncScope();
        var (watch, before) = (Stopwatch.StartNew(), Environment.CpuUsage.TotalTime);
        var result = await act(scope.ServiceProvider.GetRequiredService<OfficeDb>());
        return (result, watch.Elapsed.TotalSeconds, (Environment.CpuUsage.TotalTime - before).TotalSeconds);
    }

    private static void Say(FormattableString words) => Console.WriteLine(words.ToString(CultureInfo.InvariantCulture));
}
