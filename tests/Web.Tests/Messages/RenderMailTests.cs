using System.Text;
using System.Text.RegularExpressions;
using AngleSharp.Html.Parser;
using MimeKit;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Tests.Messages;

[Trait("Database", "either")]
public sealed partial class RenderMailTests
{
    private static readonly MailIdentity From = new("Lantern Ridge Radon", "office@lanternridge.example", "desk@lanternridge.example", "8 Quarry Lane, Birchford, MN 55999", "555-0100", new Uri("https://office.lanternridge.example/"));
    private static readonly DateTime Now = new(2026, 3, 2, 15, 0, 0, DateTimeKind.Utc);

    private static MimeMessage Render(Letter letter, string? token = null) =>
        MimeMessage.Load(new MemoryStream(RenderMail.Bytes(From, Now, letter, token is null ? null : From.Link("unsubscribe/" + token)).Mime));

    [Fact]
    public void Text_and_html_say_the_same()
    {
        var letter = MailVerbs.ALetter("same") with { Text = "Dear Ana & Bo <b>,\n\nsee https://office.lanternridge.example/offer/abc.\nIt is \"yours\".\n\n5 > 4 and 4 < 5." };
        var message = Render(letter);
        var both = Assert.IsType<MultipartAlternative>(message.Body);
        Assert.Equal(["text/plain", "text/html"], both.Select(p => p.ContentType.MimeType));
        var html = new HtmlParser().ParseDocument(message.HtmlBody!);
        Assert.Equal("https://office.lanternridge.example/offer/abc", html.QuerySelector("a")!.GetAttribute("href"));
        Assert.Empty(html.QuerySelectorAll("img, script, link, b"));
        Assert.Equal(Words(message.TextBody!.Replace("-- ", "", StringComparison.Ordinal)), Words(html.Body!.TextContent));
    }

    [Fact]
    public void The_same_cause_gives_the_same_message_id_and_another_cause_another()
    {
        Assert.Equal(Render(MailVerbs.ALetter("a")).MessageId, Render(MailVerbs.ALetter("a")).MessageId);
        Assert.NotEqual(Render(MailVerbs.ALetter("a")).MessageId, Render(MailVerbs.ALetter("b")).MessageId);
        Assert.EndsWith("@lanternridge.example", Render(MailVerbs.ALetter("a")).MessageId, StringComparison.Ordinal);
    }

    /// <summary>RFC 8058 section 3.1: both headers, one https address.</summary>
    [Fact]
    public void Upkeep_mail_carries_one_click_unsubscribe_the_postal_address_and_says_that_no_person_wrote_it()
    {
        var message = Render(MailVerbs.ALetter("u", kind: MailClass.Upkeep), "tok");
        Assert.Equal("<https://office.lanternridge.example/unsubscribe/tok>", message.Headers["List-Unsubscribe"]);
        Assert.Equal("List-Unsubscribe=One-Click", message.Headers["List-Unsubscribe-Post"]);
        Assert.Equal("auto-generated", message.Headers["Auto-Submitted"]);
        Assert.Contains("8 Quarry Lane, Birchford, MN 55999", message.TextBody, StringComparison.Ordinal);
        Assert.Contains("https://office.lanternridge.example/unsubscribe/tok", message.TextBody, StringComparison.Ordinal);
        Assert.Contains("https://office.lanternridge.example/unsubscribe/tok", message.HtmlBody, StringComparison.Ordinal);
    }

    [Fact]
    public void Work_mail_written_by_a_person_carries_neither()
    {
        var message = Render(MailVerbs.ALetter("w"));
        Assert.DoesNotContain(message.Headers, h => h.Field.StartsWith("List-", StringComparison.Ordinal) || h.Field == "Auto-Submitted");
    }

    [Theory]
    [InlineData("Ana\r\nBcc: all@evil.example")]
    [InlineData("Ana\nX-Evil: 1")]
    [InlineData("Ana\0\u2028Bcc: all@evil.example")]
    public void A_name_cannot_add_a_header(string name)
    {
        var message = Render(MailVerbs.ALetter("evil") with { ToName = name, Subject = "Hello " + name });
        Assert.Empty(message.Bcc);
        Assert.Null(message.Headers["X-Evil"]);
        Assert.Single(message.To);
        Assert.DoesNotContain(message.Subject!, c => char.IsControl(c));
    }

    [Theory]
    [InlineData("a@b.example\r\nBcc: c@d.example")]
    [InlineData("a@b.example, c@d.example")]
    [InlineData("Ana <a@b.example>")]
    [InlineData("nowhere")]
    [InlineData("@b.example")]
    [InlineData("a@")]
    [InlineData("")]
    public void An_address_that_is_not_one_is_refused_in_words(string address)
    {
        var refused = Assert.Throws<FormatException>(() => Render(MailVerbs.ALetter("bad") with { ToAddress = address }));
        Assert.Contains("is not an e-mail address", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_and_words_of_any_script_come_back_as_they_were()
    {
        var message = Render(MailVerbs.ALetter("ü") with { ToName = "Żaneta Öström 李", Subject = "Prüfung – 結果", Text = "Grüße, 李 – naïve\n" + new string('x', 3000) });
        Assert.Equal("Żaneta Öström 李", message.To.Mailboxes.Single().Name);
        Assert.Equal("Prüfung – 結果", message.Subject);
        Assert.StartsWith("Grüße, 李 – naïve", message.TextBody, StringComparison.Ordinal);
        var bytes = RenderMail.Bytes(From, Now, MailVerbs.ALetter("ü") with { Text = new string('x', 3000) + "é" }, null).Mime;
        Assert.All(bytes, b => Assert.InRange(b, (byte)1, (byte)127));
        Assert.All(Encoding.ASCII.GetString(bytes).Split("\r\n"), line => Assert.InRange(line.Length, 0, 998));
    }

    [Fact]
    public void An_attachment_comes_back_byte_for_byte()
    {
        byte[] pdf = [.. Enumerable.Range(0, 5000).Select(i => (byte)i)];
        var message = Render(MailVerbs.ALetter("pdf") with { Attachments = [new("quote\r\n.pdf", "application/pdf", pdf)] });
        var part = Assert.IsType<MimePart>(Assert.Single(message.Attachments));
        using var read = new MemoryStream();
        part.Content!.DecodeTo(read);
        Assert.Equal(pdf, read.ToArray());
        Assert.Equal("application/pdf", part.ContentType.MimeType);
        Assert.NotNull(message.TextBody);
        Assert.NotNull(message.HtmlBody);
    }

    private static string Words(string text) => Blank().Replace(text, " ").Trim();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blank();
}
