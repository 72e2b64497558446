using System.Net;
using System.Net.Http.Headers;
using AngleSharp.Html.Parser;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Papers;
using SkiaSharp;
using UglyToad.PdfPig;

namespace MitigationOffice.Web.Tests.Work;

[Trait("Database", "either")]
public sealed class PhotosTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task Photos_are_taken_in_upright_small_and_without_what_the_camera_wrote()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        var sent = Camera.Photo(3000, 2000, orientation: 6);

        // The other library finds place and device in the photo as it is sent; else finding none afterwards would prove nothing.
        Assert.True(ImageMetadataReader.ReadMetadata(new MemoryStream(sent)).OfType<GpsDirectory>().Single().ContainsTag(GpsDirectory.TagLatitude));
        Assert.Contains(Camera.Device, Said(sent), StringComparison.Ordinal);

        var answer = await SendAsync(crew, house.HouseId, jobId, [("IMG_01.jpg", sent), ("IMG_02.png", Camera.Plain(900, 700, SKEncodedImageFormat.Png))], new() { ["Input.Caption"] = "Pit under the stairs" });
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, await answer.TextAsync());
        var photos = await PhotosAsync(jobId);
        // Turned upright, and not above 2000 px; a JPEG is read at eighths of its size, so it may be somewhat less.
        Assert.Equal(1.5, photos[0].HeightPx / (double)photos[0].WidthPx, 2);
        Assert.InRange(photos[0].HeightPx, 1700, 2000);
        Assert.Equal((900, 700), (photos[1].WidthPx, photos[1].HeightPx));
        Assert.All(photos, p => Assert.Equal(("Pit under the stairs", false, "Cleo Marsh"), (p.Caption, p.InPacket, p.TakenInBy)));
        foreach (var photo in photos)
        {
            var document = await office.WithDbAsync(db => db.Documents.AsNoTracking().SingleAsync(d => d.Id == photo.DocumentId));
            Assert.Equal((PaperKind.Photo, house.HouseId), (document.Kind, document.HouseId));
            foreach (var bytes in new[] { document.Bytes, photo.Small })
            {
                var left = ImageMetadataReader.ReadMetadata(new MemoryStream(bytes));
                Assert.Empty(left.OfType<GpsDirectory>());
                Assert.Empty(left.OfType<ExifDirectoryBase>());
                Assert.DoesNotContain(Camera.Device, Said(bytes) + Camera.AsText(bytes), StringComparison.Ordinal);
            }

            Assert.True(PictureHead.Of(photo.Small) is { } small && Math.Max(small.WidthPx, small.HeightPx) == 360);
            Assert.Equal("image", (await crew.GetAsync($"/houses/{house.HouseId}/work/photos?handler=Small&photo={photo.Id}&job={jobId}")).Content.Headers.ContentType!.MediaType!.Split('/')[0]);
        }

        Assert.Equal(2, new HtmlParser().ParseDocument(await crew.GetStringAsync($"/houses/{house.HouseId}/work?job={jobId}")).QuerySelectorAll(".photos img[alt='Pit under the stairs']").Length);
        await office.AssertFewStatementsAsync(crew, $"/houses/{house.HouseId}/work/photos?job={jobId}");
        await office.AssertFewStatementsAsync(crew, $"/houses/{house.HouseId}/work?job={jobId}");
    }

    [Fact]
    public async Task What_is_no_photo_or_too_large_is_refused_by_name_the_others_are_taken_and_no_word_is_lost()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        await SendAsync(crew, house.HouseId, jobId, [("first.jpg", Camera.Plain(300, 200))], []);
        var photo = Camera.Photo(2000, 1500);
        byte[] heavy = [.. photo, .. new byte[30 * 1024 * 1024 - photo.Length]];
        var sent = new (string, byte[])[]
        {
            ("drawing.svg", "<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>"u8.ToArray()), ("notes.jpg", "words, not pixels"u8.ToArray()), ("empty.jpg", []), ("huge.jpg", heavy), ("good.jpg", Camera.Plain(400, 300)),
        };
        var answer = await SendAsync(crew, house.HouseId, jobId, sent, new() { ["Input.Caption"] = "Fan on the gable", ["Rows[0].Caption"] = "The old hole" });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var body = await answer.Content.ReadAsStringAsync();
        var text = await answer.TextAsync();
        foreach (var words in new[] { "drawing.svg: This is an SVG drawing or a web page.", "notes.jpg: What is in this file is no picture", "empty.jpg: This file is empty.", "huge.jpg: This photo is 30.0 MB; 20.0 MB are taken." })
            Assert.Contains(words, text, StringComparison.Ordinal);
        var summary = new HtmlParser().ParseDocument(body).QuerySelector("#refusals")!.TextContent;
        Assert.DoesNotContain("Not saved yet", summary, StringComparison.Ordinal);
        Assert.StartsWith("Saved in partSaved: good.jpg, as “Fan on the gable”.Saved: what you wrote and ticked at the photos below.Not saved:drawing.svg", summary, StringComparison.Ordinal);
        Assert.Contains("value=\"Fan on the gable\"", body, StringComparison.Ordinal);
        Assert.Contains("Kept for the photo that was refused", text, StringComparison.Ordinal);
        Assert.Equal(["The old hole", "Fan on the gable"], (await PhotosAsync(jobId)).Select(p => p.Caption));
        Assert.Equal(2, await office.WithDbAsync(db => db.Documents.CountAsync(d => d.HouseId == house.HouseId && d.Kind == PaperKind.Photo)));
    }

    [Fact]
    public async Task The_same_photo_sent_again_is_one_photo()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        for (var i = 0; i < 2; i++) await SendAsync(crew, house.HouseId, jobId, [($"copy{i}.jpg", Camera.Photo(500, 400))], []);
        Assert.Single(await PhotosAsync(jobId));
    }

    [Fact]
    public async Task Captions_are_edited_side_by_side_and_a_word_overtaken_by_another_is_not_lost()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (crew, desk) = (await office.SignInAsInstallerAsync(), await office.SignInAsOfficeAsync());
        var url = $"/houses/{house.HouseId}/work/photos?job={jobId}";
        await SendAsync(crew, house.HouseId, jobId, [("a.jpg", Camera.Plain(300, 200)), ("b.jpg", Camera.Plain(200, 300))], []);
        await crew.SubmitAsync(url, new() { ["Rows[0].Caption"] = "Hole H1" });
        // Opened before the crew wrote: the caption was empty then.
        var late = await desk.SubmitAsync(url, new() { ["Rows[0].CaptionWas"] = "", ["Rows[0].Caption"] = "Hole H2", ["Rows[1].Caption"] = "Fan" });
        Assert.Contains("Somebody else wrote “Hole H1” meanwhile.", await late.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"Hole H2\"", await late.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(["Hole H1", ""], (await PhotosAsync(jobId)).Select(p => p.Caption));
        // A change of the second alone goes through beside it.
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync(url, new() { ["Rows[1].Caption"] = "Fan", ["Rows[1].InPacket"] = "true" })).StatusCode);
        Assert.Equal([("Hole H1", false), ("Fan", true)], (await PhotosAsync(jobId)).Select(p => (p.Caption, p.InPacket)));
        await desk.SubmitAsync(url, new() { ["Rows[0].TakeOff"] = "true" });
        Assert.Equal("Fan", Assert.Single(await PhotosAsync(jobId)).Caption);
        Assert.Equal(2, await office.WithDbAsync(db => db.Documents.CountAsync(d => d.HouseId == house.HouseId && d.Kind == PaperKind.Photo)));
        Assert.Contains("longer than 300 characters", await (await desk.SubmitAsync(url, new() { ["Rows[0].Caption"] = new string('x', 301) })).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_chosen_photos_stand_in_the_packet_and_not_more_than_six()
    {
        var (houseId, jobId, systemId) = await office.HouseWithRunningSystemAsync("PH-1");
        var crew = await office.SignInAsInstallerAsync();
        var url = $"/houses/{houseId}/work/photos?job={jobId}";
        await SendAsync(crew, houseId, jobId, [.. Enumerable.Range(0, 7).Select(i => ($"p{i}.jpg", Camera.Plain(400 + 10 * i, 300)))], []);
        var all = Enumerable.Range(0, 7).ToDictionary(i => $"Rows[{i}].InPacket", _ => "true");
        Assert.Contains("7 photos are chosen for the packet; it shows 6.", await (await crew.SubmitAsync(url, all)).TextAsync(), StringComparison.Ordinal);
        Assert.DoesNotContain(await PhotosAsync(jobId), p => p.InPacket);
        await crew.SubmitAsync(url, new() { ["Rows[1].InPacket"] = "true", ["Rows[1].Caption"] = "The fan, Ł 🏠 on the gable", ["Rows[4].InPacket"] = "true", ["Rows[4].Caption"] = "Gauge beside the tag" });
        await crew.SubmitAsync($"/houses/{houseId}/work", [], "form[action*='handler=Papers']");
        using var packet = PdfDocument.Open(await crew.GetByteArrayAsync($"/houses/{houseId}/papers/{await office.WithDbAsync(db => db.Systems.Where(s => s.Id == systemId).Select(s => s.PacketDocumentId).SingleAsync())}"));
        var words = string.Join(' ', packet.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
        Assert.Contains("Photos of the work", words, StringComparison.Ordinal);
        Assert.Contains("Gauge beside the tag", words, StringComparison.Ordinal);
        var pictures = packet.GetPages().SelectMany(p => p.GetImages().Select(i => (Page: p, Image: i))).ToList();
        Assert.Equal([410, 440], pictures.Select(p => p.Image.WidthInSamples).Order());
        Assert.All(pictures, p => Assert.True(p.Image.BoundingBox.Left > 0 && p.Image.BoundingBox.Right < p.Page.Width && p.Image.BoundingBox.Bottom > 40));
    }

    [Fact]
    public async Task Nobody_sees_a_photo_of_another_house_or_without_signing_in()
    {
        var (house, jobId) = await office.HouseWithJobAsync();
        var (other, _) = await office.HouseWithJobAsync();
        var crew = await office.SignInAsInstallerAsync();
        await SendAsync(crew, house.HouseId, jobId, [("a.jpg", Camera.Plain(300, 200))], []);
        var photo = Assert.Single(await PhotosAsync(jobId));
        Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync($"/houses/{other.HouseId}/work/photos?handler=Small&photo={photo.Id}&job={jobId}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync($"/houses/{other.HouseId}/work/photos?job={jobId}")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync($"/houses/{house.HouseId}/work/photos?handler=Small&photo={photo.Id}&job={jobId}")).StatusCode);
    }

    private Task<List<JobPhoto>> PhotosAsync(int jobId) => office.WithDbAsync(db => db.JobPhotos.AsNoTracking().Where(p => p.JobId == jobId).OrderBy(p => p.Id).ToListAsync());

    private static string Said(byte[] bytes) => string.Join('\n', ImageMetadataReader.ReadMetadata(new MemoryStream(bytes)).SelectMany(d => d.Tags).Select(t => t.Description));

    internal static async Task<HttpResponseMessage> SendAsync(HttpClient client, int houseId, int jobId, IReadOnlyList<(string Name, byte[] Bytes)> photos, Dictionary<string, string> typed)
    {
        var url = $"/houses/{houseId}/work/photos?job={jobId}";
        var page = await new HtmlParser().ParseDocumentAsync(await client.GetStringAsync(url));
        using var form = new MultipartFormDataContent();
        foreach (var field in page.QuerySelectorAll("main form[enctype] input[name]").Where(f => f.GetAttribute("type") is "hidden" or "text" && !typed.ContainsKey(f.GetAttribute("name")!)))
            form.Add(new StringContent(field.GetAttribute("value") ?? ""), field.GetAttribute("name")!);
        foreach (var (name, value) in typed) form.Add(new StringContent(value), name);
        foreach (var (name, bytes) in photos) form.Add(new ByteArrayContent(bytes) { Headers = { ContentType = new MediaTypeHeaderValue("image/jpeg") } }, "Upload", name);
        return await client.PostAsync(url, form);
    }
}
