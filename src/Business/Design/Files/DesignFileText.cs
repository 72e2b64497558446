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
    /// <summary>Longest file that is read, characters: a weather record of a century has room in it.</summary>
    public const int LongestFile = 8_000_000;

    private const string SeeFields = "docs/design-file.md lists the fields.";

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

    private static readonly JsonSerializerOptions Strict = new(Json)
    {
        NumberHandling = JsonNumberHandling.Strict,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
    };

    [GeneratedRegex("including: (?<names>[^.]+)", RegexOptions.CultureInvariant)]
    private static partial Regex MissingNames();

    public static string Write(DesignFile file) => JsonSerializer.Serialize(file, Json).ReplaceLineEndings("\n") + "\n";

    public static string HashOf(DesignFile file) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Write(file))));

    /// <exception cref="FormatException">Not a design file; the message says what is wrong and where.</exception>
    public static DesignFile Read(string text)
    {
        if (text.Length > LongestFile) throw new FormatException(Say($"The file has more than {LongestFile} characters; no design file is that long."));
        try
        {
            var file = JsonSerializer.Deserialize<DesignFile>(text, Strict) ?? throw new FormatException("The file holds null; a design is expected.");
            if (file.Format != DesignFile.CurrentFormat) throw new FormatException(Say($"The file's format is {file.Format}; this program reads format {DesignFile.CurrentFormat}."));
            DesignFileCheck.Refuse(file);
            return file;
        }
        catch (JsonException e)
        {
            throw new FormatException(Plain(e), e);
        }
    }

    private static string Plain(JsonException e)
    {
        var path = e.Path is { Length: > 2 } whole ? whole[2..] : "";
        var line = e.LineNumber is { } n ? Say($" (line {n + 1})") : "";
        var where = path.Length > 0 ? $" at {path}" : "";
        var said = e.Message;
        if (said.Contains("could not be mapped", StringComparison.Ordinal)) return $"Unknown field “{LastOf(path)}”{where}{line}. {SeeFields}";
        if (said.StartsWith("Duplicate property", StringComparison.Ordinal)) return $"The field {path} stands there twice{line}.";
        if (MissingNames().Match(said) is { Success: true } missing) return $"Missing{line}: {Missing(path, missing.Groups["names"].Value)}. {SeeFields}";
        if (said.StartsWith("The JSON value could not be converted", StringComparison.Ordinal) || said.Contains("null values", StringComparison.Ordinal))
            return path.Length > 0 ? $"The field {path} is not of the kind it must be{line}. {SeeFields}" : $"The file is not one JSON object{line}; a design is expected. {SeeFields}";
        return $"The file cannot be read{where}{line}: it is not valid JSON.";
    }

    private static string LastOf(string path) => path[(path.LastIndexOf('.') + 1)..];

    private static string Missing(string path, string names) =>
        string.Join(", ", names.Split(',', StringSplitOptions.TrimEntries).Select(name => (path.Length > 0 ? path + "." : "") + name.Trim('\'')));

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
