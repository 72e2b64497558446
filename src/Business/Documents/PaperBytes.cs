using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using PdfSharp.Pdf;

namespace MitigationOffice.Business.Documents;

/// <summary>Saves a paper so that the same contents give the same bytes. The library writes the clock, random identities
/// and random subset names into a file; all are replaced, at their length, by ones that come from what the paper holds.</summary>
internal static partial class PaperBytes
{
    [GeneratedRegex(@"(?<=/)[A-Z]{6}(?=\+)", RegexOptions.CultureInvariant)]
    private static partial Regex SubsetName();

    [GeneratedRegex(@"(?<=uuid:)[0-9a-f-]{36}|(?<=/ID\s*\[?\s*\[?<)[0-9A-Fa-f]{32}(?=>)|(?<=/ID\s*\[<[0-9A-Fa-f]{32}>\s*<)[0-9A-Fa-f]{32}(?=>)", RegexOptions.CultureInvariant)]
    private static partial Regex Identity();

    [GeneratedRegex(@"(?<=/(ModDate|CreationDate)\s*\(D:)[^)]*(?=\))|(?<=<xmp:(ModifyDate|CreateDate|MetadataDate)>)[^<]*(?=<)", RegexOptions.CultureInvariant)]
    private static partial Regex Instant();

    public static byte[] Save(PdfDocument document, PaperHead head)
    {
        document.Info.Title = head.Title;
        document.Info.Author = head.Author;
        document.Info.Creator = "Mitigation Office";
        document.Info.CreationDate = head.MadeAtUtc;
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        return Steady(stream.ToArray(), head.MadeAtUtc);
    }

    private static byte[] Steady(byte[] bytes, DateTime atUtc)
    {
        var text = Encoding.Latin1.GetString(bytes);
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        text = SubsetName().Replace(text, m => names.TryGetValue(m.Value, out var known) ? known : names[m.Value] = Letters(names.Count));
        text = Instant().Replace(text, m => At(atUtc, m.Value));
        text = Identity().Replace(text, m => new string('0', m.Length));
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.Latin1.GetBytes(text)));
        text = Identity().Replace(text, m => m.Length == 36
            ? $"{hash[..8]}-{hash[8..12]}-{hash[12..16]}-{hash[16..20]}-{hash[20..32]}"
            : hash[..32].ToUpperInvariant());
        return Encoding.Latin1.GetBytes(text);
    }

    private static string Letters(int n) => "OFFI" + (char)('A' + n / 26) + (char)('A' + n % 26);

    private static string At(DateTime utc, string written)
    {
        var day = written.Contains('T', StringComparison.Ordinal)
            ? utc.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture)
            : utc.ToString("yyyyMMddHHmmss", CultureInfo.InvariantCulture) + "+00'00'";
        return day.PadRight(written.Length)[..written.Length];
    }
}
