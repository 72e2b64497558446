using System.CommandLine;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class VerifyCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var verify = new Command("verify", "Check the database, every stored document's hash and the audit chain.");
        verify.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, parse.GetValue(data), "none", demo: false);
            await using var scope = app.Services.CreateAsyncScope();
            var found = await VerifyRecords.RunAsync(scope.ServiceProvider.GetRequiredService<OfficeDb>(), cancel);
            foreach (var line in found.Counted) await Console.Out.WriteLineAsync(line);
            if (found.Problems.Count > 0) throw new InvalidOperationException(string.Join(Environment.NewLine, found.Problems));
        }));
        return verify;
    }
}
