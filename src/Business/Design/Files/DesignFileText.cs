using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Design.Files;

/// <summary>A design file as text: written the same way every time, read strictly.</summary>
public static class DesignFileText
{
    /// <summary>Longest file that is read, characters: a weather record of a century has room in it.</summary>
    public const int LongestFile = 8_000_000;

    private static readonly JsonFaults Faults = new("a design", "docs/design-file.md lists the fields.");

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
            throw new FormatException(Faults.Plain(e), e);
        }
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
