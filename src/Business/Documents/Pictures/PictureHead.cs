using System.Buffers.Binary;

namespace MitigationOffice.Business.Documents.Pictures;

/// <summary>
/// What the first bytes of a picture say of its size, read before anything is decoded: a file of a few kilobytes may unfold to gigabytes.
/// JPEG: ITU-T T.81, B.2.2. PNG: W3C PNG 11.2.2. WebP: RFC 9649, 2.5 to 2.7.
/// </summary>
/// <param name="IsPhoto">It can be decoded at a fraction of its size (a JPEG that is not progressive).</param>
public sealed record PictureHead(string ContentType, int WidthPx, int HeightPx, bool IsPhoto)
{
    public long Pixels => (long)WidthPx * HeightPx;

    /// <summary>Null for anything that is not one of the three, or that does not say a size.</summary>
    public static PictureHead? Of(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF])) return Jpeg(bytes);
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A])) return Png(bytes);
        return bytes.Length > 30 && bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8) ? WebP(bytes) : null;
    }

    private static PictureHead? Png(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 24 || !bytes[12..16].SequenceEqual("IHDR"u8)) return null;
        return Sized("image/png", BinaryPrimitives.ReadUInt32BigEndian(bytes[16..]), BinaryPrimitives.ReadUInt32BigEndian(bytes[20..]), false);
    }

    private static PictureHead? Jpeg(ReadOnlySpan<byte> bytes)
    {
        PictureHead? frame = null;
        var parts = 0;
        for (var at = 2; at + 9 < bytes.Length;)
        {
            if (bytes[at] != 0xFF) return null;
            var marker = bytes[at + 1];
            if (marker is 0xFF or 0x01 or (>= 0xD0 and <= 0xD8))
            {
                at += marker == 0xFF ? 1 : 2;
                continue;
            }

            // A start of frame, of whatever kind: 0xC4, 0xC8 and 0xCC are something else.
            if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC))
            {
                parts = bytes[at + 9];
                frame = Sized("image/jpeg", BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 7)..]), BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 5)..]), marker is 0xC0 or 0xC1);
            }

            // Only a picture whose one scan holds all its colours is read line by line; any other waits in memory as a whole.
            if (marker is 0xDA) return frame is null ? null : frame with { IsPhoto = frame.IsPhoto && bytes[at + 4] == parts };
            if (marker is 0xD9) return null;
            at += 2 + BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..]);
        }

        return frame is null ? null : frame with { IsPhoto = false };
    }

    private static PictureHead? WebP(ReadOnlySpan<byte> bytes)
    {
        var kind = bytes[12..16];
        if (kind.SequenceEqual("VP8X"u8)) return Sized("image/webp", 1 + Three(bytes[24..]), 1 + Three(bytes[27..]), false);
        if (kind.SequenceEqual("VP8L"u8))
        {
            var packed = BinaryPrimitives.ReadUInt32LittleEndian(bytes[21..]);
            return Sized("image/webp", 1 + (packed & 0x3FFF), 1 + ((packed >> 14) & 0x3FFF), false);
        }

        return kind.SequenceEqual("VP8 "u8)
            ? Sized("image/webp", (uint)BinaryPrimitives.ReadUInt16LittleEndian(bytes[26..]) & 0x3FFF, (uint)BinaryPrimitives.ReadUInt16LittleEndian(bytes[28..]) & 0x3FFF, false)
            : null;
    }

    private static uint Three(ReadOnlySpan<byte> bytes) => (uint)(bytes[0] | (bytes[1] << 8) | (bytes[2] << 16));

    private static PictureHead? Sized(string type, uint width, uint height, bool isPhoto) =>
        width is 0 or > int.MaxValue || height is 0 or > int.MaxValue ? null : new(type, (int)width, (int)height, isPhoto);
}
