using System.Net;
using System.Net.Http.Headers;
using AngleSharp.Html.Parser;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Tests.Diagnosis;
using MitigationOffice.Web.Tests.Papers;
using SkiaSharp;

namespace MitigationOffice.Web.Tests.Plan;

[Trait("Database", "either")]
public sealed class BackdropTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private const string ScaleForm = "#backdrop-form";

    [Fact]
    public async Task A_photo_lies_under_the_plan_once_two_points_and_their_length_are_typed()
    {
        var crew = await office.SignInAsInstallerAsync();
        var house = await office.DrawnHouseAsync(crew);
        Assert.Equal(HttpStatusCode.Redirect, (await TakeAsync(crew, house, "plan.jpg", Camera.Photo(3200, 2000))).StatusCode);
        var waiting = await BackdropAsync(house);
        Assert.Equal((1600, 1000, null), (waiting.WidthPx, waiting.HeightPx, waiting.LengthM));
        Assert.DoesNotContain("<image", await crew.GetStringAsync($"/houses/{house}/plan"), StringComparison.Ordinal);
        Assert.Contains("Give the picture its scale", await crew.GetStringAsync($"/houses/{house}/plan"), StringComparison.Ordinal);

        // 1000 px are 50 ft, so a pixel is 0.05 ft; the first point, 100 px from the left and 900 down, is the plan's 2,1.
        var laid = await crew.SubmitAsync($"/houses/{house}/plan/picture", new() { ["Input.From"] = "100,900", ["Input.To"] = "1100 900", ["Input.Length"] = "50 ft", ["Input.At"] = "2,1", ["Input.Printed"] = "true" }, ScaleForm);
        Assert.True(laid.StatusCode == HttpStatusCode.Redirect, await laid.TextAsync());
        var (low, high) = (await BackdropAsync(house)).Lies!.Value;
        Assert.Equal([-3, -4, 77, 46], new[] { low.XM, low.YM, high.XM, high.YM }.Select(m => Math.Round(m / 0.3048, 6, MidpointRounding.AwayFromZero)));

        var drawn = (await new HtmlParser().ParseDocumentAsync(await crew.GetStringAsync($"/houses/{house}/plan"))).QuerySelector("svg image")!;
        Assert.Equal(1.6, Number(drawn, "width") / Number(drawn, "height"), 2);
        Assert.Equal("backdrop", drawn.GetAttribute("class"));
        var picture = await crew.GetAsync(drawn.GetAttribute("href"));
        Assert.Equal(("image/jpeg", true), (picture.Content.Headers.ContentType!.MediaType, picture.Headers.CacheControl!.Private));
        var bytes = await picture.Content.ReadAsByteArrayAsync();
        Assert.DoesNotContain(Camera.Device, Camera.AsText(bytes), StringComparison.Ordinal);
        Assert.Equal((1600, 1000), (PictureHead.Of(bytes)!.WidthPx, PictureHead.Of(bytes)!.HeightPx));
    }

    [Fact]
    public async Task A_typed_width_alone_is_enough_and_a_picture_is_not_printed_unasked()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        await TakeAsync(owner, house, "scan.png", Camera.Plain(800, 600, SKEncodedImageFormat.Png));
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/houses/{house}/plan/picture", new() { ["Input.Length"] = "40" }, ScaleForm)).StatusCode);
        var (low, high) = (await BackdropAsync(house)).Lies!.Value;
        Assert.Equal((0, 0, 12.192, 9.144), (low.XM, low.YM, Math.Round(high.XM, 6, MidpointRounding.AwayFromZero), Math.Round(high.YM, 6, MidpointRounding.AwayFromZero)));
        Assert.Contains("class=\"backdrop no-print\"", await owner.GetStringAsync($"/houses/{house}/plan"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Input.From", "left corner", "Write the first point as two numbers of the rulers")]
    [InlineData("Input.From", "900,10", "The first point lies outside the picture, which ends at 800 across and 600 down.")]
    [InlineData("Input.To", "1,598", "The two points lie at the same place")]
    [InlineData("Input.Length", "", "Write the length between the two points.")]
    [InlineData("Input.Length", "0", "out of range: the length between the two points must be between 1 ft and 492.1 ft")]
    [InlineData("Input.Length", "forty", "forty")]
    [InlineData("Input.At", "there", "Corner 1 of the place of the first point cannot be read")]
    public async Task A_scale_that_cannot_be_is_refused_in_words_and_the_typing_stays(string field, string typed, string words)
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        await TakeAsync(owner, house, "scan.png", Camera.Plain(800, 600, SKEncodedImageFormat.Png));
        var sent = new Dictionary<string, string> { ["Input.From"] = "0,600", ["Input.To"] = "400,600", ["Input.Length"] = "20", ["Input.At"] = "1,1", [field] = typed };
        var answer = await owner.SubmitAsync($"/houses/{house}/plan/picture", sent, ScaleForm);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var html = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains(words, html, StringComparison.Ordinal);
        foreach (var value in sent.Values) Assert.Contains($"value=\"{value}\"", html, StringComparison.Ordinal);
        Assert.Null((await BackdropAsync(house)).LengthM);
    }

    [Fact]
    public async Task A_tiny_stretch_called_long_would_make_a_picture_as_large_as_a_field_and_is_refused()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        await TakeAsync(owner, house, "scan.png", Camera.Plain(800, 600, SKEncodedImageFormat.Png));
        var answer = await owner.SubmitAsync($"/houses/{house}/plan/picture", new() { ["Input.From"] = "0,0", ["Input.To"] = "10,0", ["Input.Length"] = "40" }, ScaleForm);
        Assert.Contains("With this length the picture would be 3200 ft across.", await answer.TextAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("plan.svg", "<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>", "This is an SVG drawing or a web page")]
    [InlineData("plan.jpg", "words", "What is in this file is no picture that can be shown")]
    public async Task A_hostile_or_wrong_file_is_refused_and_the_picture_before_stays(string name, string content, string words)
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        await TakeAsync(owner, house, "scan.png", Camera.Plain(80, 60, SKEncodedImageFormat.Png));
        var before = await BackdropAsync(house);
        Assert.Contains(words, await (await TakeAsync(owner, house, name, System.Text.Encoding.UTF8.GetBytes(content))).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(before.DocumentId, (await BackdropAsync(house)).DocumentId);
    }

    [Fact]
    public async Task Thirty_megabytes_of_photo_are_made_small()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        var photo = Camera.Photo(2000, 1500);
        byte[] heavy = [.. photo, .. new byte[30 * 1024 * 1024 - photo.Length]];
        Assert.Equal(HttpStatusCode.Redirect, (await TakeAsync(owner, house, "heavy.jpg", heavy)).StatusCode);
        Assert.InRange(await office.WithDbAsync(db => db.Documents.Where(d => d.HouseId == house).Select(d => d.SizeBytes).SingleAsync()), 1000, 300_000);
        var more = await (await TakeAsync(owner, house, "heavier.jpg", [.. photo, .. new byte[41 * 1024 * 1024]])).TextAsync();
        Assert.Contains("the office takes pictures up to 40.0 MB", more, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_picture_taken_away_stays_among_the_papers_and_can_be_laid_again()
    {
        var owner = await office.SignInAsOwnerAsync();
        var house = await office.PlainHouseAsync();
        await TakeAsync(owner, house, "scan.png", Camera.Plain(80, 60, SKEncodedImageFormat.Png));
        var document = (await BackdropAsync(house)).DocumentId;
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/houses/{house}/plan/picture", [], "form[action*=Away]")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/houses/{house}/plan/picture/{document}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync($"/houses/{house}/papers/{document}?show=1")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await owner.SubmitAsync($"/houses/{house}/plan/picture", new() { ["photo"] = $"{document}" }, "form[action*=Take]")).StatusCode);
        Assert.Equal(80, (await BackdropAsync(house)).WidthPx);
        Assert.Contains("Choose a file", await (await owner.SubmitAsync($"/houses/{house}/plan/picture", [], "form[action*=Take]")).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_sees_the_picture_of_another_house_or_without_signing_in()
    {
        var owner = await office.SignInAsOwnerAsync();
        var (house, other) = (await office.PlainHouseAsync(), await office.PlainHouseAsync());
        await TakeAsync(owner, house, "scan.png", Camera.Plain(80, 60, SKEncodedImageFormat.Png));
        var document = (await BackdropAsync(house)).DocumentId;
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/houses/{other}/plan/picture/{document}")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync($"/houses/{house}/plan/picture/{document}")).StatusCode);
        // The number of a quote is no picture, even where someone asks for it as one.
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync($"/houses/{house}/plan/picture/99999")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await owner.GetAsync("/houses/99999/plan/picture")).StatusCode);
        await office.AssertFewStatementsAsync(owner, $"/houses/{house}/plan/picture");
    }

    private Task<PlanBackdrop> BackdropAsync(int house) => office.WithDbAsync(db => db.Backdrops.AsNoTracking().SingleAsync(b => b.HouseId == house));

    private static double Number(AngleSharp.Dom.IElement element, string name) => double.Parse(element.GetAttribute(name)!, System.Globalization.CultureInfo.InvariantCulture);

    internal static async Task<HttpResponseMessage> TakeAsync(HttpClient client, int house, string name, byte[] bytes)
    {
        var url = $"/houses/{house}/plan/picture";
        var page = await new HtmlParser().ParseDocumentAsync(await client.GetStringAsync(url));
        using var form = new MultipartFormDataContent();
        foreach (var hidden in page.QuerySelectorAll("form[action*=Take] input[type=hidden]")) form.Add(new StringContent(hidden.GetAttribute("value")!), hidden.GetAttribute("name")!);
        var file = new ByteArrayContent(bytes);
        file.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        form.Add(file, "Upload", name);
        return await client.PostAsync(url + "?handler=Take", form);
    }
}
