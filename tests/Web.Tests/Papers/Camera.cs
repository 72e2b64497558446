using System.Buffers.Binary;
using System.Text;
using SkiaSharp;

namespace MitigationOffice.Web.Tests.Papers;

/// <summary>Makes pictures as a camera or a scanner would, with what these write beside the pixels, and reads the marks of a stored one.</summary>
internal static class Camera
{
    /// <summary>A word that a stored picture must not hold.</summary>
    public const string Device = "Lanternphone 7";

    /// <summary>Left half red, right half blue, so that one sees how it was turned.</summary>
    public static byte[] Plain(int width, int height, SKEncodedImageFormat format = SKEncodedImageFormat.Jpeg)
    {
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.Red);
            using var blue = new SKPaint { Color = SKColors.Blue };
            canvas.DrawRect(width / 2f, 0, width / 2f, height, blue);
        }

        using var data = bitmap.Encode(format, 90);
        return data.ToArray();
    }

    /// <summary>A JPEG with an EXIF segment as EXIF 2.32 (4.5, 4.6) lays it out: maker, orientation, and a GPS part with the latitude 44° 12′ 36″ N.</summary>
    public static byte[] Photo(int width, int height, ushort orientation = 1)
    {
        var plain = Plain(width, height);
        var exif = Exif(orientation);
        byte[] head = [0xFF, 0xE1, (byte)((exif.Length + 2) >> 8), (byte)(exif.Length + 2)];
        return [.. plain.AsSpan(0, 2), .. head, .. exif, .. plain.AsSpan(2)];
    }

    /// <summary>The segments of a JPEG up to its pixels, by their marker and first letters: ITU-T T.81, B.1.1.</summary>
    public static IReadOnlyList<(byte Marker, string Starts)> Segments(byte[] jpeg)
    {
        var found = new List<(byte, string)>();
        for (var at = 2; at + 4 < jpeg.Length && jpeg[at + 1] != 0xDA; at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2)))
            found.Add((jpeg[at + 1], Encoding.Latin1.GetString(jpeg, at + 4, Math.Min(8, jpeg.Length - at - 4))));
        return found;
    }

    public static string AsText(byte[] bytes) => Encoding.Latin1.GetString(bytes);

    private static byte[] Exif(ushort orientation)
    {
        var maker = Encoding.ASCII.GetBytes(Device + "\0");
        using var memory = new MemoryStream();
        using var w = new BinaryWriter(memory);
        w.Write("Exif\0\0"u8);
        w.Write("II*\0"u8);
        w.Write(8u);
        // The main part: maker (0x010F), orientation (0x0112), where the GPS part begins (0x8825).
        w.Write((ushort)3);
        Entry(w, 0x010F, 2, (uint)maker.Length, 50);
        Entry(w, 0x0112, 3, 1, orientation);
        Entry(w, 0x8825, 4, 1, 50 + (uint)maker.Length);
        w.Write(0u);
        w.Write(maker);
        // The GPS part: latitude's half (0x0001) and degrees, minutes, seconds (0x0002).
        var degrees = 50 + (uint)maker.Length + 2 + 24 + 4;
        w.Write((ushort)2);
        Entry(w, 1, 2, 2, 'N');
        Entry(w, 2, 5, 3, degrees);
        w.Write(0u);
        foreach (var part in new uint[] { 44, 1, 12, 1, 36, 1 }) w.Write(part);
        return memory.ToArray();
    }

    private static void Entry(BinaryWriter w, ushort tag, ushort type, uint count, uint value)
    {
        w.Write(tag);
        w.Write(type);
        w.Write(count);
        w.Write(value);
    }
}
