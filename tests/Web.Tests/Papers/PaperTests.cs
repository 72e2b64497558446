using System.Net;
using System.Net.Http.Headers;
using System.Text;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;
using MitigationOffice.Web.Tests.Houses;

namespace MitigationOffice.Web.Tests.Papers;

public sealed class PaperTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    // First bytes as the formats' own specifications give them: ISO 32000-1 7.5.2, W3C PNG 5.2.
    private static readonly byte[] Pdf = "%PDF-1.7\n%made up\n%%EOF"u8.ToArray();
    private static readonly byte[] Png = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, 0, 0, 0, 13];

    [Theory]
    [InlineData("permit.pdf", "pdf", "application/pdf", PaperKind.Attachment)]
    [InlineData("note.txt", "Called at noon.\r\n", "text/plain", PaperKind.Attachment)]
    [InlineData("hours.csv", "hour,pCi/L\r\n1,3.9\r\n", "text/csv", PaperKind.Attachment)]
    public async Task A_file_of_an_allowed_kind_is_kept_byte_for_byte(string name, string content, string type, PaperKind kind)
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("1 Paper Lane " + name);
        var bytes = content == "pdf" ? Pdf : Encoding.UTF8.GetBytes(content);
        Assert.Equal(HttpStatusCode.Redirect, (await UploadAsync(desk, house, name, bytes, "A title")).StatusCode);
        var kept = await PaperAsync(house);
        Assert.Equal((kind, type, "A title", "Bram Oster"), (kept.Kind, kept.ContentType, kept.Title, kept.StoredBy));
        var answer = await desk.GetAsync($"/houses/{house}/papers/{kept.Id}");
        Assert.Equal(bytes, await answer.Content.ReadAsByteArrayAsync());
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        Assert.Equal("nosniff", answer.Headers.GetValues("X-Content-Type-Options").Single());
        var shown = await desk.GetAsync($"/houses/{house}/papers/{kept.Id}?show=1");
        Assert.Equal(type.StartsWith("text", StringComparison.Ordinal) ? "attachment" : "inline", shown.Content.Headers.ContentDisposition!.DispositionType);
        var text = await desk.TextAsync($"/houses/{house}/papers");
        Assert.Contains(kept.Sha256[..12], text, StringComparison.Ordinal);
        Assert.Contains("Stored document added", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("drawing.svg", "<svg xmlns='http://www.w3.org/2000/svg' onload='x'/>")]
    [InlineData("page.html", "<!doctype html><script>x</script>")]
    [InlineData("page.txt", "\uFEFF  <HTML><script>x</script>")]
    [InlineData("photo.png", "<svg onload=x>")]
    [InlineData("program.exe", "MZ\u0090\u0000\u0003")]
    [InlineData("zeros.txt", "a\u0000b")]
    [InlineData("no ending", "words")]
    [InlineData("empty.pdf", "")]
    public async Task Anything_else_is_refused_in_words(string name, string content)
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("2 Refused Lane " + name);
        var answer = await UploadAsync(desk, house, name, Encoding.UTF8.GetBytes(content), "kept title");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(content.Length == 0 ? "This file is empty." : "What is in this file is none of these", await answer.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"kept title\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Documents.AnyAsync(d => d.HouseId == house)));
    }

    [Fact]
    public async Task A_file_over_twenty_megabytes_is_refused_in_words()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("3 Heavy Lane");
        var answer = await UploadAsync(desk, house, "big.pdf", [.. Pdf, .. new byte[20 * 1024 * 1024]], "");
        Assert.Contains("the office takes files up to 20.0 MB", await answer.TextAsync(), StringComparison.Ordinal);
        Assert.False(await office.WithDbAsync(db => db.Documents.AnyAsync(d => d.HouseId == house)));
    }

    [Fact]
    public async Task No_file_at_all_is_said()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("4 Nothing Lane");
        Assert.Contains("Choose a file first.", await (await desk.SubmitAsync($"/houses/{house}/papers", [], "main form[enctype]")).TextAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("../../../etc/passwd", "passwd.pdf")]
    [InlineData("..\\..\\boot.ini", "boot.pdf")]
    [InlineData("a\r\nSet-Cookie: x=1.pdf", "aSet-Cookie x=1.pdf")]
    [InlineData("invoice\u202Efdp.exe", "invoicefdp.pdf")]
    [InlineData("  ..  ", "file.pdf")]
    [InlineData("", "file.pdf")]
    [InlineData("Zoë's \"plan\"; x.pdf", "Zoë's plan x.pdf")]
    [InlineData("🏠.pdf", "🏠.pdf")]
    public void A_name_is_made_safe(string name, string safe) => Assert.Equal(safe, ReceivedFile.Of(Pdf, name).FileName);

    [Fact]
    public void A_name_of_three_hundred_letters_is_shortened_and_keeps_its_ending()
    {
        var safe = ReceivedFile.Of(Pdf, new string('n', 300) + ".pdf").FileName;
        Assert.Equal(124, safe.Length);
        Assert.EndsWith(".pdf", safe, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stored_paper_with_a_hostile_name_or_type_is_handed_out_harmless()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("5 Hostile Lane");
        var id = await StoreAsync(house, PaperKind.Attachment, "<svg onload=x>", "x\r\nSet-Cookie: a=b.html", "text/html", "<script>x</script>"u8.ToArray());
        foreach (var url in new[] { $"/houses/{house}/papers/{id}", $"/houses/{house}/papers/{id}?show=1" })
        {
            var answer = await desk.GetAsync(url);
            Assert.Equal("application/octet-stream", answer.Content.Headers.ContentType!.MediaType);
            Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
            Assert.False(answer.Headers.Contains("Set-Cookie"));
        }

        Assert.DoesNotContain("<svg onload", await (await desk.GetAsync($"/houses/{house}/papers")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_paper_of_another_house_or_none_is_not_found()
    {
        var desk = await office.SignInAsOfficeAsync();
        var (mine, other) = (await office.AddHouseAsync("6 Mine Lane"), await office.AddHouseAsync("7 Other Lane"));
        var id = await StoreAsync(mine, PaperKind.Attachment, "Mine", "mine.pdf", "application/pdf", Pdf);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/houses/{other}/papers/{id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/houses/{mine}/papers/999999")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync($"/houses/{mine}/papers/{id}")).StatusCode);
    }

    [Fact]
    public async Task An_installer_sees_no_paper_with_prices_and_no_history()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.AddHouseAsync("8 Crew Lane");
        var quote = await StoreAsync(house, PaperKind.Quote, "The quote", "quote.pdf", "application/pdf", Pdf);
        var photo = await StoreAsync(house, PaperKind.Photo, "The pit", "pit.png", "image/png", Png);
        var text = await crew.TextAsync($"/houses/{house}/papers");
        Assert.Contains("The pit", text, StringComparison.Ordinal);
        Assert.DoesNotContain("The quote", text, StringComparison.Ordinal);
        Assert.DoesNotContain("What was changed", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync($"/houses/{house}/papers/{quote}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await crew.GetAsync($"/houses/{house}/papers/{photo}")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await UploadAsync(crew, house, "site.jpg", Camera.Plain(80, 60), "")).StatusCode);
    }

    [Fact]
    public async Task The_same_upload_sent_twice_is_kept_once()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("9 Once Lane");
        for (var i = 0; i < 2; i++) await UploadAsync(desk, house, "a.pdf", Pdf, "", once: "upload-twice");
        Assert.Equal(1, await office.WithDbAsync(db => db.Documents.CountAsync(d => d.HouseId == house)));
    }

    [Fact]
    public async Task Ten_statements_are_enough()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("10 Few Lane");
        var id = await StoreAsync(house, PaperKind.Label, "Label", "label.pdf", "application/pdf", Pdf);
        await office.AssertFewStatementsAsync(desk, $"/houses/{house}/papers");
        await office.AssertFewStatementsAsync(desk, $"/houses/{house}/papers/{id}");
    }

    [Fact]
    public async Task A_picture_is_kept_and_shown_inside_the_browser()
    {
        var desk = await office.SignInAsOfficeAsync();
        var house = await office.AddHouseAsync("11 Picture Lane");
        Assert.Equal(HttpStatusCode.Redirect, (await UploadAsync(desk, house, "fan on the wall.PNG", Camera.Plain(80, 60, SkiaSharp.SKEncodedImageFormat.Png), "The fan")).StatusCode);
        var kept = await PaperAsync(house);
        Assert.Equal((PaperKind.Photo, "image/png", "fan on the wall.png"), (kept.Kind, kept.ContentType, kept.FileName));
        var shown = await desk.GetAsync($"/houses/{house}/papers/{kept.Id}?show=1");
        Assert.Equal(("inline", "image/png"), (shown.Content.Headers.ContentDisposition!.DispositionType, shown.Content.Headers.ContentType!.MediaType));
        Assert.Equal(kept.Bytes, await shown.Content.ReadAsByteArrayAsync());
        Assert.Contains("This picture is damaged", await (await UploadAsync(desk, house, "cut.png", Png, "")).TextAsync() + await (await UploadAsync(desk, house, "cut.png", Camera.Plain(80, 60, SkiaSharp.SKEncodedImageFormat.Png)[..40], "")).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(1, await office.WithDbAsync(db => db.Documents.CountAsync(d => d.HouseId == house)));
    }

    internal static async Task<HttpResponseMessage> UploadAsync(HttpClient client, int house, string name, byte[] bytes, string title, string? once = null)
    {
        var url = $"/houses/{house}/papers";
        var page = await new HtmlParser().ParseDocumentAsync(await (await client.GetAsync(url)).Content.ReadAsStringAsync());
        using var form = new MultipartFormDataContent();
        foreach (var hidden in page.QuerySelectorAll("main form[enctype] input[type=hidden]"))
            form.Add(new StringContent(hidden.GetAttribute("name") == "_once" && once is not null ? once : hidden.GetAttribute("value")!), hidden.GetAttribute("name")!);
        form.Add(new StringContent(title), "Input.Title");
        var file = new ByteArrayContent(bytes);
        file.Headers.ContentType = new MediaTypeHeaderValue("application/pdf");
        form.Add(file, "Upload", name);
        return await client.PostAsync(url, form);
    }

    private Task<StoredDocument> PaperAsync(int house) => office.WithDbAsync(db => db.Documents.AsNoTracking().SingleAsync(d => d.HouseId == house));

    private Task<int> StoreAsync(int house, PaperKind kind, string title, string name, string type, byte[] bytes) => office.WithDbAsync(async db =>
    {
        var paper = StoredDocument.Of(bytes, kind, title, name, type, house, office.Clock.GetUtcNow().UtcDateTime, "Ada Quill");
        db.Add(paper);
        await db.SaveChangesAsync();
        return paper.Id;
    });
}
