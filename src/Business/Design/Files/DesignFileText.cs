using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;

namespace MitigationOffice.Business.Design.Files;

/// <summary>A design file as text: written the same way every time, read strictly.</summary>
public static partial class DesignFileText
{
    public static readonly JsonSerializerOptions Json = new()
    {
        WriteIndented = true,
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase, allowIntegerValues: false) },
    };

    [GeneratedRegex("property '(?<name>[^']+)'", RegexOptions.CultureInvariant)]
    private static partial Regex PropertyName();

    [GeneratedRegex("including: (?<names>[^.]+)", RegexOptions.CultureInvariant)]
    private static partial Regex MissingNames();

    public static string Write(DesignFile file) => JsonSerializer.Serialize(file, Json).ReplaceLineEndings("\n") + "\n";

    public static string HashOf(DesignFile file) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Write(file))));

    /// <exception cref="FormatException">Not a design file; the message says what is wrong and where.</exception>
    public static DesignFile Read(string text)
    {
        try
        {
            var file = JsonSerializer.Deserialize<DesignFile>(text, Json) ?? throw new FormatException("The file holds null; a design is expected.");
            return file.Format == DesignFile.CurrentFormat
                ? file
                : throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"The file's format is {file.Format}; this program reads format {DesignFile.CurrentFormat}."));
        }
        catch (JsonException e)
        {
            throw new FormatException(Plain(e), e);
        }
    }

    private static string Plain(JsonException e)
    {
        var where = e.Path is { Length: > 1 } path ? $" at {path[2..]}" : "";
        var line = e.LineNumber is { } n ? string.Create(CultureInfo.InvariantCulture, $" (line {n + 1})") : "";
        if (e.Message.Contains("could not be mapped", StringComparison.Ordinal))
            return $"Unknown field “{PropertyName().Match(e.Message).Groups["name"].Value}”{where}{line}. docs/design-file.md lists the fields.";
        if (MissingNames().Match(e.Message) is { Success: true } missing)
            return $"Missing{where}{line}: {missing.Groups["names"].Value.Replace("'", "", StringComparison.Ordinal)}. docs/design-file.md lists the fields.";
        return $"The file cannot be read{where}{line}: the value is not of the kind that docs/design-file.md gives.";
    }
}
