using System.CommandLine;
using System.Text;
using System.Text.Json;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;

namespace MitigationOffice.Web.Commands;

/// <summary>A house design in, the full computed report as JSON out: the same computation as on the design sheet.</summary>
public static class DesignCommand
{
    public static Command Make()
    {
        var design = new Command("design", "Compute a design from a file (docs/design-file.md) and write the report as JSON.");
        var file = new Argument<string>("file") { Description = "A design file; - reads standard input." };
        design.Arguments.Add(file);
        design.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            var name = parse.GetValue(file)!;
            using var from = name == "-" ? Console.In : new StreamReader(name);
            await Console.Out.WriteLineAsync(Report(await ReadAsync(from, cancel)));
        }));
        return design;
    }

    /// <summary>No more than a design file can hold, so that a wrong file or an endless stream is refused and not swallowed.</summary>
    private static async Task<string> ReadAsync(TextReader from, CancellationToken cancel)
    {
        var (text, part) = (new StringBuilder(), new char[65_536]);
        for (var read = -1; read != 0 && text.Length <= DesignFileText.LongestFile;)
        {
            read = await from.ReadAsync(part, cancel);
            text.Append(part, 0, read);
        }

        return text.ToString();
    }

    /// <exception cref="FormatException">The file is no design that can be computed; the message says where and why.</exception>
    public static string Report(string text)
    {
        try
        {
            return JsonSerializer.Serialize(ComputeReport.Of(DesignFileText.Read(text)), DesignFileText.Json).ReplaceLineEndings("\n");
        }
        catch (DesignRefused e)
        {
            throw new FormatException(e.InFile, e);
        }
    }
}
