using System.CommandLine;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class VerifyCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var verify = new Command("verify", "Check the database file, every stored document's hash, the audit chain and the chains of acceptances, cancellations, change orders, invoices, hand-overs and state reports.");
        verify.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, parse.GetValue(data), "none", demo: false);
            await using var scope = app.Services.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
            var damage = db.Database.IsSqlite() ? await DamageAsync(app, cancel) : [];
            if (damage.Count > 0) await FailAsync(damage);
            VerifyRecords.Findings[] all =
            [
                await VerifyRecords.RunAsync(db, cancel), await VerifyAcceptances.RunAsync(db, cancel), await VerifyInvoices.RunAsync(db, cancel),
                await VerifyCancelNotices.RunAsync(db, cancel), await VerifyChanges.RunAsync(db, cancel),
                await VerifyHandOvers.RunAsync(db, cancel), await VerifyReports.RunAsync(db, cancel),
            ];
            foreach (var line in all.SelectMany(f => f.Counted)) await Console.Out.WriteLineAsync(line);
            var problems = all.SelectMany(f => f.Problems).ToList();
            if (problems.Count > 0) await FailAsync(problems);
        }));
        return verify;
    }

    private static async Task<IReadOnlyList<string>> DamageAsync(WebApplication app, CancellationToken cancel)
    {
        var folder = app.Services.GetRequiredService<DataFolder>();
        RecordsFile.Demand(app.Configuration, folder, "");
        await using var file = await RecordsFile.OpenAsync(folder.Database, cancel);
        return await RecordsFile.ProblemsAsync(file, thorough: true, cancel);
    }

    private static async Task FailAsync(IReadOnlyList<string> problems)
    {
        foreach (var problem in problems) await Console.Error.WriteLineAsync(problem);
        throw new InvalidOperationException($"The records are not as they were stored: {problems.Count} found.");
    }
}
