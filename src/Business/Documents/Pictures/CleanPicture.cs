using System.Globalization;
using SkiaSharp;

namespace MitigationOffice.Business.Documents.Pictures;

/// <summary>A picture made anew from its pixels alone: upright, not too large, without place, date or camera.</summary>
/// <param name="Problem">Why it is refused, in words; null when it is taken.</param>
public sealed record CleanedPicture(byte[] Bytes, string ContentType, int WidthPx, int HeightPx, string? Problem);

/// <summary>
/// Takes a JPEG, PNG or WebP as somebody hands it in and draws it anew. What a camera writes beside the picture (where and when
/// it was taken, with which device, a small copy of the uncropped picture) is not carried over, nor is anything hidden in the file.
/// </summary>
public static class CleanPicture
{
    public const int MostBytes = 40 * 1024 * 1024;
    public const int LongestSidePx = 3000;
    public const string Taken = "JPEG, PNG and WebP pictures";

    /// <summary>A photo is decoded at a fraction of its size, so that more of its pixels fit into memory than of another picture's.</summary>
    private const long MostPhotoPixels = 210_000_000;
    private const long MostPixels = 50_000_000;
    private const int Quality = 85;
    private const long MostPngBytes = 2_000_000;

    /// <summary>One at a time: two large pictures at once would need twice the memory.</summary>
    private static readonly Lock Gate = new();

    public static CleanedPicture Of(byte[] bytes, int longestSidePx = LongestSidePx)
    {
        if (bytes.Length == 0) return Refused("This file is empty.");
        if (bytes.Length > MostBytes) return Refused($"This picture is {ReceivedFile.Size(bytes.Length)}; the office takes pictures up to {ReceivedFile.Size(MostBytes)}. Save it with fewer pixels and send that.");
        if (PictureHead.Of(bytes) is not { } head) return Refused(NoPicture(bytes));
        var most = head.IsPhoto ? MostPhotoPixels : MostPixels;
        if (head.Pixels > most) return Refused(Say($"This picture has {head.WidthPx} × {head.HeightPx} pixels, {head.Pixels / 1_000_000.0:#,##0} million; at most {most / 1_000_000} million are taken. Save it with fewer pixels and send that."));
        lock (Gate)
        {
            return Drawn(bytes, longestSidePx);
        }
    }

    private static CleanedPicture Drawn(byte[] bytes, int longestSidePx)
    {
        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data);
        if (codec is null) return Refused(Broken);
        using var read = Decode(codec, longestSidePx);
        if (read is null) return Refused(Broken);
        using var upright = Upright(read, codec.EncodedOrigin, longestSidePx);
        var (made, type) = Encode(upright, keepPng: codec.EncodedFormat == SKEncodedImageFormat.Png);
        return made is null ? Refused(Broken) : new(made, type, upright.Width, upright.Height, null);
    }

    /// <summary>At the smallest size the format can be read at without going below what is kept.</summary>
    private static SKBitmap? Decode(SKCodec codec, int longestSidePx)
    {
        var whole = codec.Info;
        var wanted = Math.Min(1f, longestSidePx / (float)Math.Max(whole.Width, whole.Height));
        var size = codec.GetScaledDimensions(wanted);
        var info = new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb());
        var bitmap = new SKBitmap();
        if (bitmap.TryAllocPixels(info) && codec.GetPixels(info, bitmap.GetPixels()) is SKCodecResult.Success or SKCodecResult.IncompleteInput) return bitmap;
        bitmap.Dispose();
        return null;
    }

    private static SKBitmap Upright(SKBitmap read, SKEncodedOrigin origin, int longestSidePx)
    {
        var scale = Math.Min(1.0, longestSidePx / (double)Math.Max(read.Width, read.Height));
        var (w, h) = (Math.Max(1, (int)Math.Round(read.Width * scale, MidpointRounding.AwayFromZero)), Math.Max(1, (int)Math.Round(read.Height * scale, MidpointRounding.AwayFromZero)));
        var onSide = origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;
        var made = new SKBitmap(new SKImageInfo(onSide ? h : w, onSide ? w : h, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(made);
        canvas.Clear(SKColors.White);
        canvas.Concat(Turn(origin, w, h));
        using var image = SKImage.FromBitmap(read);
        canvas.DrawImage(image, new SKRect(0, 0, w, h), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        return made;
    }

    /// <summary>The eight ways a camera may have been held, as the orientation tag of a photo numbers them.</summary>
    private static SKMatrix Turn(SKEncodedOrigin origin, int w, int h) => origin switch
    {
        SKEncodedOrigin.TopRight => new(-1, 0, w, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new(-1, 0, w, 0, -1, h, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, h, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new(0, -1, h, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new(0, -1, h, -1, 0, w, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, w, 0, 0, 1),
        _ => SKMatrix.Identity,
    };

    /// <summary>A drawing stays sharp as PNG; a photo that came as PNG is far smaller as JPEG.</summary>
    private static (byte[]? Bytes, string Type) Encode(SKBitmap picture, bool keepPng)
    {
        using var pixels = picture.PeekPixels();
        if (keepPng)
        {
            using var png = pixels.Encode(SKEncodedImageFormat.Png, 100);
            if (png is not null && png.Size <= MostPngBytes) return (png.ToArray(), "image/png");
        }

        using var jpeg = pixels.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return (jpeg?.ToArray(), "image/jpeg");
    }

    private const string Broken = "This picture is damaged and cannot be shown. Open it on the device it comes from, save it anew as JPEG and send that.";

    private static string NoPicture(byte[] bytes) => ReceivedFile.LooksLikeMarkup(bytes)
        ? $"This is an SVG drawing or a web page. The office takes {Taken}: a browser would run what is hidden in the others. Save the drawing as PNG and send that."
        : ReceivedFile.Picture(bytes) == "application/pdf" ? $"This is a PDF. The office takes {Taken} here: save the page as PNG, or take a photo of it."
        : $"What is in this file is no picture that can be shown, whatever its name says. The office takes {Taken}; save it as one of these and send that.";

    private static CleanedPicture Refused(string why) => new([], "", 0, 0, why);

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
