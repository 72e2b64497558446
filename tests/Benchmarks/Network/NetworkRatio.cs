using System.Diagnostics;
using System.Globalization;

namespace MitigationOffice.Benchmarks.Network;

/// <summary>Our balance of the reference trees beside EPANET's of the same trees, one after the other on this machine. Wants node, and `npm ci` done in tests/Reference.</summary>
internal static class NetworkRatio
{
    internal static int Print()
    {
        if (Epanet() is not { } times) return 1;
        Console.WriteLine("tree | ours, µs | EPANET solveH, µs | ratio | EPANET kept open, µs | ratio");
        foreach (var (name, solve, open) in times)
        {
            var ours = Ours(name);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name} | {ours:0.00} | {solve:0.00} | {ours / solve:0.00} | {open:0.00} | {ours / open:0.00}"));
        }

        return 0;
    }

    private static double Ours(string name)
    {
        var tree = ReferenceTrees.All.Single(t => t.Name == name);
        var (network, fan) = (tree.Network(), tree.Curve());
        for (var i = 0; i < 50_000; i++) network.SolveFlowM3PerS(fan);
        var best = double.MaxValue;
        for (var round = 0; round < 40; round++)
        {
            var start = Stopwatch.GetTimestamp();
            for (var i = 0; i < 200; i++) network.SolveFlowM3PerS(fan);
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMicroseconds / 200);
        }

        return best;
    }

    private static (string Name, double Solve, double Open)[]? Epanet()
    {
        var folder = Path.Combine("tests", "Reference");
        if (!Directory.Exists(Path.Combine(folder, "node_modules")))
        {
            Console.Error.WriteLine("Run this from the top of the repository, after `npm ci` in tests/Reference.");
            return null;
        }

        using var node = Process.Start(new ProcessStartInfo("node", "time-networks.mjs") { WorkingDirectory = folder, RedirectStandardOutput = true })!;
        var lines = node.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        node.WaitForExit();
        return [.. lines.Select(line => line.Split('\t')).Select(cells => (cells[0], Number(cells[1]), Number(cells[2])))];
    }

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
