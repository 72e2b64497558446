using System.CommandLine;
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
            var text = name == "-" ? await Console.In.ReadToEndAsync(cancel) : await File.ReadAllTextAsync(name, cancel);
            await Console.Out.WriteLineAsync(Report(text));
        }));
        return design;
    }

    public static string Report(string text) =>
        JsonSerializer.Serialize(ComputeReport.Of(DesignFileText.Read(text)), DesignFileText.Json).ReplaceLineEndings("\n");
}
