using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Web.Tests.Work;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Graphics;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace MitigationOffice.Web.Tests.SystemPage;

/// <summary>The code on the label, read by another library (ZXing.Net) from the shapes in the PDF.</summary>
[Trait("Database", "either")]
public sealed class LabelCodeTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Theory]
    [InlineData("FourBySix", 288, 432)]
    [InlineData("FourByFour", 288, 288)]
    [InlineData("LetterSheet", 612, 792)]
    [InlineData("PipeMark", 252, 144)]
    public async Task The_code_on_each_size_of_label_leads_to_the_systems_own_page(string size, int width, int height)
    {
        var (houseId, _, systemId) = await office.HouseWithRunningSystemAsync($"QR-{size}");
        var crew = await office.SignInAsInstallerAsync();
        await crew.SubmitAsync($"/houses/{houseId}/work", new() { ["labelSize"] = size }, "form[action*='handler=Papers']");
        var system = await office.WithDbAsync(db => db.Systems.AsNoTracking().SingleAsync(s => s.Id == systemId));
        using var label = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{system.LabelDocumentId}"));
        Assert.Equal((1, width, height), (label.NumberOfPages, (int)label.GetPage(1).Width, (int)label.GetPage(1).Height));
        Assert.All(label.GetPage(1).GetWords(), w => Assert.True(w.BoundingBox.Bottom > 0 && w.BoundingBox.Right < width, $"{w.Text} stands outside the label"));
        var address = Decode(label, 1);
        Assert.StartsWith("http://localhost:5080/system/", address, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await office.Visitor().GetAsync(new Uri(address).AbsolutePath)).StatusCode);
        using var packet = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{system.PacketDocumentId}"));
        Assert.Equal(address, Decode(packet, packet.NumberOfPages));
    }

    [Fact]
    public async Task Printing_the_label_again_leaves_the_one_on_the_pipe_alive()
    {
        var (houseId, _, systemId) = await office.HouseWithRunningSystemAsync("QR-AGAIN");
        var crew = await office.SignInAsInstallerAsync();
        var addresses = new List<string>();
        for (var i = 0; i < 2; i++)
        {
            await crew.SubmitAsync($"/houses/{houseId}/work", [], "form[action*='handler=Papers']");
            var id = await office.WithDbAsync(db => db.Systems.Where(s => s.Id == systemId).Select(s => s.LabelDocumentId).SingleAsync());
            using var label = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{id}"));
            addresses.Add(Decode(label, 1));
        }

        Assert.NotEqual(addresses[0], addresses[1]);
        foreach (var address in addresses) Assert.Equal(HttpStatusCode.OK, (await office.Visitor().GetAsync(new Uri(address).AbsolutePath)).StatusCode);
    }

    /// <summary>
    /// Paints the black shapes of a page, six dots a point, and lets the other library look for a code: first as a clean picture of
    /// nothing but a code, then as a photograph. Its search in photographs alone misses about one code in two hundred, as one frame of a phone may.
    /// </summary>
    private static string Decode(PdfDocument pdf, int number)
    {
        const int Dots = 6;
        var page = pdf.GetPage(number);
        var (width, height) = ((int)(page.Width * Dots), (int)(page.Height * Dots));
        var grey = new byte[width * height];
        Array.Fill(grey, (byte)255);
        foreach (var path in page.Paths.Where(p => p.IsFilled))
        {
            if (path.GetBoundingRectangle() is not { } box || box.Width > 100 || box.Height > 100) continue;
            var black = path.FillColor?.ToRGBValues() is var (r, g, b) && (double)(r + g + b) < 0.3;
            if (!black) continue;
            for (var y = (int)Math.Round((page.Height - box.Top) * Dots, MidpointRounding.AwayFromZero); y < (int)Math.Round((page.Height - box.Bottom) * Dots, MidpointRounding.AwayFromZero); y++)
                for (var x = (int)Math.Round(box.Left * Dots, MidpointRounding.AwayFromZero); x < (int)Math.Round(box.Right * Dots, MidpointRounding.AwayFromZero); x++)
                    if (x >= 0 && y >= 0 && x < width && y < height) grey[y * width + x] = 0;
        }

        var picture = new RGBLuminanceSource(grey, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        return new[] { DecodeHintType.PURE_BARCODE, DecodeHintType.TRY_HARDER }
            .Select(hint => new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(picture)), new Dictionary<DecodeHintType, object> { [hint] = true })?.Text)
            .FirstOrDefault(text => text is not null) ?? "";
    }
}
