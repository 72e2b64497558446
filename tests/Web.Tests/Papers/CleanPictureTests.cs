using System.Buffers.Binary;
using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Web.Tests.Houses;
using SkiaSharp;

namespace MitigationOffice.Web.Tests.Papers;

[Trait("Database", "either")]
public sealed class CleanPictureTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_photo_with_place_and_camera_is_stored_without_them_and_no_larger_than_needed()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.AddHouseAsync("21 Photo Lane");
        var photo = Camera.Photo(4000, 1000);
        Assert.Contains(Camera.Device, Camera.AsText(photo), StringComparison.Ordinal);
        Assert.Contains(Camera.Segments(photo), s => s.Marker == 0xE1 && s.Starts.StartsWith("Exif", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.Redirect, (await PaperTests.UploadAsync(crew, house, "pit.jpg", photo, "The pit")).StatusCode);
        var kept = await office.WithDbAsync(db => db.Documents.AsNoTracking().SingleAsync(d => d.HouseId == house));
        Assert.Equal((PaperKind.Photo, "image/jpeg", "pit.jpg"), (kept.Kind, kept.ContentType, kept.FileName));
        AssertBare(kept.Bytes);
        var head = PictureHead.Of(kept.Bytes)!;
        Assert.Equal((3000, 750), (head.WidthPx, head.HeightPx));
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(kept.Bytes)), kept.Sha256);
    }

    /// <summary>No marker of the application (but JFIF's own) or of a comment, and no trace of the words.</summary>
    private static void AssertBare(byte[] jpeg)
    {
        Assert.All(Camera.Segments(jpeg), s => Assert.True(s.Marker is not (>= 0xE1 and <= 0xEF or 0xFE) || s.Starts.StartsWith("ICC", StringComparison.Ordinal), $"marker {s.Marker:X2} {s.Starts}"));
        foreach (var word in new[] { Camera.Device, "Exif", "GPS", "http://ns.adobe.com" }) Assert.DoesNotContain(word, Camera.AsText(jpeg), StringComparison.Ordinal);
    }

    /// <summary>The picture is red to the left and blue to the right; after the turn that the tag asks for, the colours lie where EXIF 2.32, 4.6.4, says.</summary>
    [Theory]
    [InlineData(1, 60, 40, "red", "blue", "red", "blue")]
    [InlineData(2, 60, 40, "blue", "red", "blue", "red")]
    [InlineData(3, 60, 40, "blue", "red", "blue", "red")]
    [InlineData(4, 60, 40, "red", "blue", "red", "blue")]
    [InlineData(5, 40, 60, "red", "red", "blue", "blue")]
    [InlineData(6, 40, 60, "red", "red", "blue", "blue")]
    [InlineData(7, 40, 60, "blue", "blue", "red", "red")]
    [InlineData(8, 40, 60, "blue", "blue", "red", "red")]
    public void A_photo_taken_on_its_side_stands_upright_although_the_tag_is_gone(ushort orientation, int width, int height, string topLeft, string topRight, string lowLeft, string lowRight)
    {
        var clean = CleanPicture.Of(Camera.Photo(60, 40, orientation));
        Assert.Null(clean.Problem);
        using var seen = SKBitmap.Decode(clean.Bytes);
        Assert.Equal((width, height), (seen.Width, seen.Height));
        Assert.Equal([topLeft, topRight, lowLeft, lowRight], new[] { (5, 5), (width - 6, 5), (5, height - 6), (width - 6, height - 6) }.Select(p => seen.GetPixel(p.Item1, p.Item2)).Select(c => c.Red > c.Blue ? "red" : "blue"));
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Png, "image/png")]
    [InlineData(SKEncodedImageFormat.Webp, "image/jpeg")]
    [InlineData(SKEncodedImageFormat.Jpeg, "image/jpeg")]
    public void The_three_kinds_are_read_whatever_the_file_is_called(SKEncodedImageFormat format, string type)
    {
        var clean = CleanPicture.Of(Camera.Plain(400, 300, format), longestSidePx: 200);
        Assert.Equal((null, type, 200, 150), (clean.Problem, clean.ContentType, clean.WidthPx, clean.HeightPx));
        Assert.Equal((200, 150), (PictureHead.Of(clean.Bytes)!.WidthPx, PictureHead.Of(clean.Bytes)!.HeightPx));
    }

    [Fact]
    public void Words_hidden_in_a_png_and_bytes_behind_the_picture_are_gone()
    {
        // A tEXt chunk after the head (W3C PNG 11.3.4.3), and a script behind the end.
        var png = Camera.Plain(40, 30, SKEncodedImageFormat.Png);
        byte[] text = [.. "tEXt"u8, .. "Comment\0secret place"u8];
        byte[] chunk = [0, 0, 0, (byte)(text.Length - 4), .. text, .. Crc(text)];
        var clean = CleanPicture.Of([.. png.AsSpan(0, 33), .. chunk, .. png.AsSpan(33), .. "<script>x</script>"u8]);
        Assert.Null(clean.Problem);
        Assert.DoesNotContain("secret place", Camera.AsText(clean.Bytes), StringComparison.Ordinal);
        Assert.DoesNotContain("<script>", Camera.AsText(clean.Bytes), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_see_through_lies_on_white()
    {
        using var bitmap = new SKBitmap(20, 20);
        bitmap.Erase(SKColors.Transparent);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        using var seen = SKBitmap.Decode(CleanPicture.Of(png.ToArray()).Bytes);
        Assert.Equal(SKColors.White, seen.GetPixel(10, 10));
    }

    /// <summary>A file of a few hundred bytes whose head promises gigapixels is refused by its head; nothing is unpacked.</summary>
    [Fact]
    public void A_bomb_of_pixels_is_refused_before_it_unfolds()
    {
        var png = Camera.Plain(10, 10, SKEncodedImageFormat.Png);
        BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(16), 60_000);
        BinaryPrimitives.WriteUInt32BigEndian(png.AsSpan(20), 60_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("60000 × 60000 pixels, 3,600 million; at most 50 million are taken", CleanPicture.Of(png).Problem, StringComparison.Ordinal);
        var jpeg = Camera.Plain(16, 16);
        var frame = Camera.AsText(jpeg).IndexOf("\u00FF\u00C0", StringComparison.Ordinal);
        BinaryPrimitives.WriteUInt16BigEndian(jpeg.AsSpan(frame + 5), 65_000);
        BinaryPrimitives.WriteUInt16BigEndian(jpeg.AsSpan(frame + 7), 65_000);
        Assert.Contains("at most 210 million are taken", CleanPicture.Of(jpeg).Problem, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 4_000_000);
    }

    [Theory]
    [InlineData("plan.svg", "<svg xmlns='http://www.w3.org/2000/svg' onload='x()'><script>x()</script></svg>", "This is an SVG drawing or a web page")]
    [InlineData("plan.png", "\uFEFF <?xml version='1.0'?><!DOCTYPE svg [<!ENTITY a SYSTEM 'file:///etc/passwd'>]><svg>&a;</svg>", "This is an SVG drawing or a web page")]
    [InlineData("plan.pdf", "%PDF-1.7", "This is a PDF")]
    [InlineData("photo.jpg", "no picture at all", "What is in this file is no picture that can be shown")]
    [InlineData("photo.gif", "GIF89a\u0001\u0000\u0001\u0000", "What is in this file is no picture that can be shown")]
    [InlineData("cut.jpg", "\u00FF\u00D8\u00FF\u00E0", "What is in this file is no picture that can be shown")]
    [InlineData("none.png", "", "This file is empty")]
    public void What_is_no_picture_is_refused_in_words(string name, string content, string words)
    {
        Assert.NotEmpty(name);
        Assert.StartsWith(words, CleanPicture.Of(content.StartsWith('\u00FF') || content.StartsWith("GIF", StringComparison.Ordinal) ? Encoding.Latin1.GetBytes(content) : Encoding.UTF8.GetBytes(content)).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_cut_of_a_photo_is_taken_or_refused_in_words()
    {
        var photo = Camera.Photo(300, 200, 6);
        for (var length = 1; length < photo.Length; length += 37)
        {
            var clean = CleanPicture.Of(photo[..length]);
            Assert.True(clean.Problem is { Length: > 20 } || PictureHead.Of(clean.Bytes) is { WidthPx: 200, HeightPx: 300 }, $"{length} bytes");
        }
    }

    /// <summary>CRC-32 as ISO 3309 and W3C PNG, annex D.</summary>
    private static byte[] Crc(byte[] of)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var b in of)
        {
            crc ^= b;
            for (var bit = 0; bit < 8; bit++) crc = (crc & 1) == 1 ? 0xEDB88320u ^ (crc >> 1) : crc >> 1;
        }

        var bytes = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(bytes, ~crc);
        return bytes;
    }
}
