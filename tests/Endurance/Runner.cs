namespace MitigationOffice.Endurance;

/// <summary>Kills the jobs process again and again while it sends, and counts what came of it.
/// <code>dotnet run --project tests/Endurance -- kill [--messages 3000] [--kills 150] [--seed 7]</code>
/// On SQLite, with one jobs process; on PostgreSQL with two when OFFICE_TEST_POSTGRES holds a connection string.</summary>
public static class Runner
{
    public static async Task<int> Main(string[] args)
    {
        if (args is ["pump", ..]) return await Pump.RunAsync(PumpOrders.Read(args));
        if (args is ["plan", ..]) return await MeasurePlan.RunAsync(Number(args, "--houses", 20_000), Array.IndexOf(args, "--keep") is >= 0 and var at && at + 1 < args.Length ? args[at + 1] : null);
        if (args is ["years", ..]) return await YearsRun.RunAsync(Number(args, "--houses", 300), Number(args, "--seed", 7));
        if (args is not ["kill", ..])
        {
            await Console.Error.WriteLineAsync("usage: kill [--messages N] [--kills N] [--seed N], plan [--houses N] [--keep FOLDER], or years [--houses N] [--seed N]");
            return 2;
        }

        await using var run = new KillRun(Number(args, "--messages", 3000), Number(args, "--kills", 150), Number(args, "--seed", 7));
        var found = await run.RunAsync();
        foreach (var line in found.Lines) Console.WriteLine(line);
        return found.Good ? 0 : 1;
    }

    private static int Number(string[] args, string name, int otherwise) =>
        Array.IndexOf(args, name) is >= 0 and var at && at + 1 < args.Length ? int.Parse(args[at + 1], System.Globalization.CultureInfo.InvariantCulture) : otherwise;
}
