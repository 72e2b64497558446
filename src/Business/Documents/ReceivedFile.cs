using System.Globalization;
using System.Text;

namespace MitigationOffice.Business.Documents;

/// <summary>A file somebody handed in, judged by what is in it and not by what it calls itself.</summary>
/// <param name="ContentType">What it is; empty when it is refused.</param>
/// <param name="FileName">A name that is safe to keep and to send, with the ending of what it is.</param>
/// <param name="Problem">Why it is refused, in words; null when it is taken.</param>
public sealed record ReceivedFile(string ContentType, string FileName, string? Problem)
{
    public const int MostBytes = 20 * 1024 * 1024;
    public const string Taken = "PDF files, pictures (JPEG, PNG, WebP), plain text (.txt) and CSV (.csv)";
    private const int LongestName = 120;

    public bool IsPicture => ContentType.StartsWith("image/", StringComparison.Ordinal);

    private static readonly string[] Markup = ["<!doctype", "<html", "<svg", "<?xml", "<script", "<head", "<body", "<!--", "<iframe"];

    public static ReceivedFile Of(byte[] bytes, string? name)
    {
        if (bytes.Length == 0) return Refused("This file is empty.");
        var most = Picture(bytes)?.StartsWith("image/", StringComparison.Ordinal) == true ? Pictures.CleanPicture.MostBytes : MostBytes;
        if (bytes.Length > most) return Refused($"This file is {Size(bytes.Length)}; the office takes files up to {Size(MostBytes)}, pictures up to {Size(Pictures.CleanPicture.MostBytes)}. Send a smaller one, or a photo with fewer pixels.");
        if (Picture(bytes) is { } type) return new(type, SafeName(name, Ending(type)), null);
        var ending = Path.GetExtension(name ?? "").ToLowerInvariant();
        if (IsText(bytes) && ending is ".txt" or ".csv") return LooksLikeMarkup(bytes) ? Refused() : new(ending == ".csv" ? "text/csv" : "text/plain", SafeName(name, ending), null);
        return Refused();
    }

    /// <summary>A type that a browser may show by itself, told from the content; null for everything else.</summary>
    public static string? Picture(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith("%PDF-"u8)) return "application/pdf";
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A])) return "image/png";
        if (bytes.Length > 12 && bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8)) return "image/webp";
        return bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? "image/jpeg" : null;
    }

    /// <summary>Folders, line ends, control and direction marks and what file systems refuse taken away; not too long; the given ending.</summary>
    public static string SafeName(string? name, string ending)
    {
        var last = (name ?? "").Replace('\\', '/').Split('/')[^1];
        var stem = new StringBuilder();
        foreach (var rune in last.EnumerateRunes())
            if (Kept(rune)) stem.Append(rune.ToString());
        var bare = stem.ToString();
        if (Path.GetExtension(bare) is { Length: > 1 and <= 6 } old) bare = bare[..^old.Length];
        bare = bare.Trim(' ', '.', '-', '_', '\'');
        if (bare.Length > LongestName) bare = bare[..(char.IsHighSurrogate(bare[LongestName - 1]) ? LongestName - 1 : LongestName)];
        return (bare.Length == 0 ? "file" : bare) + ending;
    }

    public static string Size(long bytes) => bytes < 1024 * 1024
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Max(1, Math.Round(bytes / 1024.0, 0, MidpointRounding.AwayFromZero)):0} KB")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Round(bytes / 1048576.0, 1, MidpointRounding.AwayFromZero):0.0} MB");

    private static bool Kept(Rune rune) =>
        Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned
            or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Surrogate)
        && rune != Rune.ReplacementChar && !"<>:\"|?*%;".Contains(rune.ToString(), StringComparison.Ordinal);

    private static bool IsText(byte[] bytes)
    {
        try
        {
            return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes).All(c => !char.IsControl(c) || c is '\t' or '\r' or '\n' or '\f');
        }
        catch (DecoderFallbackException)
        {
            return false;
        }
    }

    /// <summary>A web page or an SVG drawing, which a browser would run.</summary>
    internal static bool LooksLikeMarkup(byte[] bytes)
    {
        var start = Encoding.UTF8.GetString(bytes, 0, Math.Min(bytes.Length, 1024)).TrimStart('\uFEFF', ' ', '\t', '\r', '\n', '\f').ToLowerInvariant();
        return Markup.Any(m => start.StartsWith(m, StringComparison.Ordinal));
    }

    private static string Ending(string type) => type switch { "application/pdf" => ".pdf", "image/png" => ".png", "image/webp" => ".webp", _ => ".jpg" };

    private static ReceivedFile Refused(string? why = null) =>
        new("", "", why ?? $"The office takes {Taken}. What is in this file is none of these; web pages and SVG drawings are refused because a browser would run what is in them. Print it to PDF and send that.");
}
