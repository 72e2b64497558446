using System.CommandLine;
using System.Data.Common;
using System.Text;

namespace MitigationOffice.Web.Commands;

/// <summary>The verbs of the program. Exit codes: 0 done, 1 failed, 2 wrong usage.</summary>
public static class CommandLine
{
    public static async Task<int> RunAsync(string[] args)
    {
        var root = new RootCommand("Mitigation Office: the whole job of a radon mitigation contractor.") { TreatUnmatchedTokensAsErrors = false };
        var data = new Option<string?>("--data") { Description = "The folder that holds everything.", Recursive = true };
        var role = new Option<string>("--role") { Description = "web, jobs, all or none.", DefaultValueFactory = _ => "all", Recursive = true };
        role.AcceptOnlyFromAmong("web", "jobs", "all", "none");
        root.Options.Add(data);
        root.Options.Add(role);
        root.SetAction((parse, cancel) => ServeCommand.RunAsync(args, parse.GetValue(data), parse.GetValue(role)!, demo: false, cancel));

        var serve = new Command("serve", "Start the office (the default).") { TreatUnmatchedTokensAsErrors = false };
        serve.SetAction((parse, cancel) => ServeCommand.RunAsync(args, parse.GetValue(data), parse.GetValue(role)!, demo: false, cancel));
        var demo = new Command("demo", "Start the office with an invented company in it.") { TreatUnmatchedTokensAsErrors = false };
        demo.SetAction((parse, cancel) => ServeCommand.RunAsync(args, parse.GetValue(data), parse.GetValue(role)!, demo: true, cancel));
        var migrate = new Command("migrate", "Bring the records to this version, then stop.");
        migrate.SetAction((parse, cancel) => ServeCommand.MigrateAsync(args, parse.GetValue(data), cancel));
        Command[] verbs =
        [
            serve, demo, migrate, UserCommand.Make(args, data), ImportCommand.Make(args, data), ExportCommand.Make(args, data), ReportCommand.Make(args, data),
            BackupCommand.Make(args, data), RestoreCommand.Make(args, data), VerifyCommand.Make(args, data), DesignCommand.Make(),
        ];
        foreach (var verb in verbs) root.Subcommands.Add(verb);

        var parsed = root.Parse(args);
        if (parsed.Errors.Count > 0)
        {
            foreach (var error in parsed.Errors) await Console.Error.WriteLineAsync(error.Message);
            return 2;
        }

        return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
    }

    /// <summary>Runs a verb; an error the user can mend becomes one sentence on standard error and exit code 1.</summary>
    public static async Task<int> GuardAsync(Func<Task> act)
    {
        try
        {
            await act();
            return 0;
        }
        catch (Exception e) when (e is InvalidOperationException or IOException or UnauthorizedAccessException or FormatException or DbException or DecoderFallbackException)
        {
            await Console.Error.WriteLineAsync((e.InnerException as DbException ?? e).Message.ReplaceLineEndings(" "));
            return 1;
        }
    }
}
