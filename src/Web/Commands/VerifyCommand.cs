using System.CommandLine;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class VerifyCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var verify = new Command("verify", "Check every stored document's hash, the audit chain and the chain of acceptances.");
        verify.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, parse.GetValue(data), "none", demo: false);
            await using var scope = app.Services.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
            VerifyRecords.Findings[] all = [await VerifyRecords.RunAsync(db, cancel), await VerifyAcceptances.RunAsync(db, cancel)];
            foreach (var line in all.SelectMany(f => f.Counted)) await Console.Out.WriteLineAsync(line);
            var problems = all.SelectMany(f => f.Problems).ToList();
            if (problems.Count > 0) throw new InvalidOperationException(string.Join(Environment.NewLine, problems));
        }));
        return verify;
    }
}
