using System.Buffers.Binary;
using PdfSharp.Drawing;
using PdfSharp.Fonts;

namespace MitigationOffice.Business.Documents;

/// <summary>The faces a paper is set in.</summary>
public enum PaperFace
{
    Regular,
    Strong,
    Italic,
}

/// <summary>The one type family of the papers (Source Sans 3, SIL Open Font License), carried in the program.</summary>
public static class PaperFonts
{
    public const string Family = "Source Sans 3";
    private static readonly Lazy<Dictionary<PaperFace, byte[]>> Files = new(() => new()
    {
        [PaperFace.Regular] = Read("SourceSans3-Regular.ttf"),
        [PaperFace.Strong] = Read("SourceSans3-SemiBold.ttf"),
        [PaperFace.Italic] = Read("SourceSans3-Italic.ttf"),
    });

    private static readonly Lazy<Dictionary<PaperFace, HashSet<int>>> Covered =
        new(() => Files.Value.ToDictionary(f => f.Key, f => FontCoverage.Of(f.Value)));

    static PaperFonts() => GlobalFontSettings.FontResolver = new Resolver();

    public static XFont Make(PaperFace face, double sizePt) => new(Family, sizePt, face switch
    {
        PaperFace.Strong => XFontStyleEx.Bold,
        PaperFace.Italic => XFontStyleEx.Italic,
        _ => XFontStyleEx.Regular,
    });

    /// <summary>Whether the face has a shape for this character.</summary>
    public static bool Has(PaperFace face, int character) => Covered.Value[face].Contains(character);

    private static byte[] Read(string name)
    {
        using var stream = typeof(PaperFonts).Assembly.GetManifestResourceStream($"MitigationOffice.Business.Documents.Fonts.{name}")
            ?? throw new InvalidOperationException($"The font {name} is missing from the program.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    private sealed class Resolver : IFontResolver
    {
        public FontResolverInfo ResolveTypeface(string familyName, bool bold, bool italic) =>
            new((bold ? PaperFace.Strong : italic ? PaperFace.Italic : PaperFace.Regular).ToString());

        public byte[] GetFont(string faceName) => Files.Value[Enum.Parse<PaperFace>(faceName)];
    }
}

/// <summary>Reads which characters a TrueType file has shapes for (its cmap table, formats 4 and 12 of the OpenType specification).</summary>
internal static class FontCoverage
{
    public static HashSet<int> Of(ReadOnlySpan<byte> font)
    {
        var cmap = font[Table(font, "cmap"u8)..];
        var found = new HashSet<int>();
        for (var i = 0; i < U16(cmap, 2); i++)
        {
            var part = cmap[(int)U32(cmap, 4 + 8 * i + 4)..];
            if (U16(part, 0) == 4) AddSegments(part, found);
            else if (U16(part, 0) == 12) AddGroups(part, found);
        }

        return found;
    }

    private static int Table(ReadOnlySpan<byte> font, ReadOnlySpan<byte> tag)
    {
        for (var i = 0; i < U16(font, 4); i++)
            if (font.Slice(12 + 16 * i, 4).SequenceEqual(tag)) return (int)U32(font, 12 + 16 * i + 8);
        throw new InvalidOperationException("The font has no cmap table.");
    }

    private static void AddSegments(ReadOnlySpan<byte> part, HashSet<int> found)
    {
        var count = U16(part, 6) / 2;
        for (var i = 0; i < count; i++)
        {
            var (last, first) = (U16(part, 14 + 2 * i), U16(part, 16 + 2 * count + 2 * i));
            for (int c = first; c <= last && c != 0xFFFF; c++) found.Add(c);
        }
    }

    private static void AddGroups(ReadOnlySpan<byte> part, HashSet<int> found)
    {
        for (var i = 0; i < U32(part, 12); i++)
            for (var c = U32(part, 16 + 12 * i); c <= U32(part, 20 + 12 * i); c++) found.Add((int)c);
    }

    private static ushort U16(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);

    private static uint U32(ReadOnlySpan<byte> bytes, int at) => BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);
}
