using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PdfSharp.Pdf;

namespace MitigationOffice.Business.Documents;

/// <summary>Saves a paper so that the same contents give the same bytes. The library writes the clock, random identities
/// and random subset names into a file; all are replaced, at their length, by ones that come from what the paper holds.</summary>
internal static class PaperBytes
{
    private const int Letters = 6, Hex = 32, Uuid = 36;
    private static readonly string[] Days = ["/ModDate", "/CreationDate"], Instants = ["<xmp:ModifyDate>", "<xmp:CreateDate>", "<xmp:MetadataDate>"];

    public static byte[] Save(PdfDocument document, PaperHead head)
    {
        document.Info.Title = head.Title;
        document.Info.Author = head.Author;
        document.Info.Creator = "Mitigation Office";
        document.Info.CreationDate = head.MadeAtUtc;
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        var bytes = stream.ToArray();
        NameSubsets(bytes);
        foreach (var name in Days) Each(bytes, name, at => SetDay(bytes, at, head.MadeAtUtc));
        foreach (var name in Instants) Each(bytes, name, at => Put(bytes, at, '<', head.MadeAtUtc.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture)));
        SetIdentities(bytes);
        return bytes;
    }

    /// <summary>The names of the parts of fonts, six random letters before a plus sign, in the order in which they come.</summary>
    private static void NameSubsets(byte[] bytes)
    {
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        Each(bytes, "+", after =>
        {
            var from = after - 1 - Letters;
            if (from < 1 || bytes[from - 1] != '/' || bytes.AsSpan(from, Letters).ContainsAnyExceptInRange((byte)'A', (byte)'Z')) return;
            var random = Encoding.ASCII.GetString(bytes, from, Letters);
            if (!names.TryGetValue(random, out var name)) names[random] = name = "OFFI" + (char)('A' + names.Count / 26) + (char)('A' + names.Count % 26);
            Encoding.ASCII.GetBytes(name, bytes.AsSpan(from));
        });
    }

    private static void SetDay(byte[] bytes, int at, DateTime utc)
    {
        at = Past(bytes, at, " \r\n");
        if (bytes.AsSpan(at).StartsWith("(D:"u8)) Put(bytes, at + 3, ')', utc.ToString("yyyyMMddHHmmss", CultureInfo.InvariantCulture) + "+00'00'");
    }

    /// <summary>The file's two identities and those of its metadata become the hash of all the rest.</summary>
    private static void SetIdentities(byte[] bytes)
    {
        var places = new List<(int At, int Length)>();
        Each(bytes, "uuid:", at => { if (IsHex(bytes, at, Uuid)) places.Add((at, Uuid)); });
        Each(bytes, "/ID", at =>
        {
            for (var twice = 0; twice < 2; twice++)
            {
                at = Past(bytes, at, " \r\n[");
                if (at >= bytes.Length || bytes[at] != '<' || !IsHex(bytes, at + 1, Hex) || bytes[at + 1 + Hex] != '>') return;
                places.Add((at + 1, Hex));
                at += Hex + 2;
            }
        });
        foreach (var (at, length) in places) bytes.AsSpan(at, length).Fill((byte)'0');
        var hash = Convert.ToHexStringLower(SHA256.HashData(bytes))[..Hex];
        foreach (var (at, length) in places)
            Encoding.ASCII.GetBytes(length == Uuid ? $"{hash[..8]}-{hash[8..12]}-{hash[12..16]}-{hash[16..20]}-{hash[20..]}" : hash.ToUpperInvariant(), bytes.AsSpan(at));
    }

    private static void Each(byte[] bytes, string mark, Action<int> act)
    {
        Span<byte> wanted = stackalloc byte[mark.Length];
        Encoding.ASCII.GetBytes(mark, wanted);
        for (int from = 0, found; (found = bytes.AsSpan(from).IndexOf(wanted)) >= 0;)
        {
            from += found + mark.Length;
            act(from);
        }
    }

    private static int Past(byte[] bytes, int at, string passed)
    {
        while (at < bytes.Length && passed.Contains((char)bytes[at], StringComparison.Ordinal)) at++;
        return at;
    }

    private static bool IsHex(byte[] bytes, int at, int length)
    {
        if (at + length >= bytes.Length) return false;
        foreach (var b in bytes.AsSpan(at, length))
            if (!char.IsAsciiHexDigit((char)b) && (b != '-' || length != Uuid)) return false;
        return true;
    }

    /// <summary>The words in place of what stands from here to the end mark, cut or filled with blanks.</summary>
    private static void Put(byte[] bytes, int at, char end, string words)
    {
        var length = bytes.AsSpan(at).IndexOf((byte)end);
        if (length > 0) Encoding.ASCII.GetBytes(words.PadRight(length).AsSpan(0, length), bytes.AsSpan(at));
    }
}
