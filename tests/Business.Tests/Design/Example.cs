using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Business.Tests.Design;

/// <summary>The invented example file of demo-data, whole or with one field changed.</summary>
internal static class Example
{
    public static string Text { get; } = System.IO.File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo-data", "design-example.json"));

    public static DesignFile File { get; } = DesignFileText.Read(Text);

    public static DesignReport Report { get; } = ComputeReport.Of(File);

    /// <summary>What the file is refused with once a field has another value, given as JSON; null takes the field out.</summary>
    public static string Refusal(string path, string? json) => Refusal(With(path, json));

    public static string Refusal(string text)
    {
        var refused = Assert.ThrowsAny<FormatException>(() => ComputeReport.Of(DesignFileText.Read(text)));
        var said = (refused as DesignRefused)?.InFile ?? refused.Message;
        Assert.DoesNotContain("System.", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", said, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', said);
        return said;
    }

    public static string With(string path, string? json)
    {
        var root = JsonNode.Parse(Text)!;
        Set(root, path, json is null ? null : JsonNode.Parse(json), json is null);
        return root.ToJsonString();
    }

    public static void Set(JsonNode root, string path, JsonNode? value, bool remove = false)
    {
        var steps = path.Replace("[", ".[", StringComparison.Ordinal).Split('.', StringSplitOptions.RemoveEmptyEntries);
        var node = steps[..^1].Aggregate(root, (at, step) => (step[0] == '[' ? at[IndexOf(step)] : at[step])!);
        if (steps[^1][0] == '[') node.AsArray()[IndexOf(steps[^1])] = value;
        else if (remove) node.AsObject().Remove(steps[^1]);
        else node[steps[^1]] = value;
    }

    private static int IndexOf(string step) => int.Parse(step[1..^1], CultureInfo.InvariantCulture);

    public static void Same(object expected, object actual) =>
        Assert.Equal(JsonSerializer.Serialize(expected, DesignFileText.Json), JsonSerializer.Serialize(actual, DesignFileText.Json));
}
