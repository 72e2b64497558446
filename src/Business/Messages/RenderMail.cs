using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using MimeKit;

namespace MitigationOffice.Business.Messages;

/// <summary>Letter to bytes: text and HTML both complete, no picture from elsewhere, nothing that tells whether it was read.</summary>
public static partial class RenderMail
{
    public static (byte[] Mime, string MessageId) Bytes(MailIdentity from, DateTime nowUtc, Letter letter, Uri? unsubscribe)
    {
        var id = $"{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(letter.Key)))[..40]}@{from.Domain}";
        var message = new MimeMessage { MessageId = id, Date = new DateTimeOffset(DateTime.SpecifyKind(nowUtc, DateTimeKind.Utc)), Subject = MailAddress.OneLine(letter.Subject) };
        message.From.Add(MailAddress.Read(from.FromAddress, from.Name));
        if (from.ReplyToAddress.Length > 0) message.ReplyTo.Add(MailAddress.Read(from.ReplyToAddress, from.Name));
        message.To.Add(MailAddress.Read(letter.ToAddress, letter.ToName));
        if (letter.Automatic) message.Headers.Add("Auto-Submitted", "auto-generated");
        if (unsubscribe is not null) AddUnsubscribe(message, unsubscribe);
        message.Body = Body(from, letter, unsubscribe);
        message.Prepare(EncodingConstraint.SevenBit);
        using var bytes = new MemoryStream();
        message.WriteTo(Lines, bytes);
        return (bytes.ToArray(), id);
    }

    /// <summary>Whether this is how the text of a rendered message begins.</summary>
    public static bool Says(byte[] mime, string text)
    {
        using var bytes = new MemoryStream(mime);
        return MimeMessage.Load(bytes).TextBody?.ReplaceLineEndings("\n").StartsWith(text.ReplaceLineEndings("\n").Trim(), StringComparison.Ordinal) == true;
    }

    private static readonly FormatOptions Lines = Crlf();

    private static FormatOptions Crlf()
    {
        var options = FormatOptions.Default.Clone();
        options.NewLineFormat = NewLineFormat.Dos;
        return options;
    }

    /// <summary>RFC 8058: one click needs an https address. Without one the link alone is given.</summary>
    private static void AddUnsubscribe(MimeMessage message, Uri link)
    {
        // On one line however long: some relays break the signature of a folded one.
        var header = new Header(Encoding.ASCII, "List-Unsubscribe", $"<{link.AbsoluteUri}>");
        header.SetRawValue(Encoding.ASCII.GetBytes($" <{link.AbsoluteUri}>\r\n"));
        message.Headers.Add(header);
        if (link.Scheme == Uri.UriSchemeHttps) message.Headers.Add("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
    }

    private static MimeEntity Body(MailIdentity from, Letter letter, Uri? unsubscribe)
    {
        var text = letter.Text.ReplaceLineEndings("\n").Trim() + "\n\n" + Foot(from, letter.Class, unsubscribe);
        var body = new BodyBuilder { TextBody = text.ReplaceLineEndings("\r\n"), HtmlBody = Html(text, MailAddress.OneLine(letter.Subject), letter.Heads) };
        foreach (var attachment in letter.Attachments)
            body.Attachments.Add(MailAddress.OneLine(attachment.Name), attachment.Content, ContentType.Parse(attachment.ContentType));
        var made = body.ToMessageBody();
        var position = 0;
        foreach (var part in Multiparts(made)) part.Boundary = $"=_{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{letter.Key}|{position++}")))[..32]}";
        return made;
    }

    private static IEnumerable<Multipart> Multiparts(MimeEntity entity) =>
        entity is Multipart part ? part.SelectMany(Multiparts).Prepend(part) : [];

    private static string Foot(MailIdentity from, MailClass kind, Uri? unsubscribe)
    {
        var lines = new List<string> { "-- ", from.Name };
        if (kind != MailClass.Work || from.PostalAddress.Length > 0) lines.Add(from.PostalAddress);
        if (from.Phone.Length > 0) lines.Add(from.Phone);
        if (kind == MailClass.Commercial) lines.Add("This message offers further paid work.");
        if (unsubscribe is not null) lines.Add($"No more messages of this kind: {unsubscribe.AbsoluteUri}");
        return string.Join('\n', lines.Where(l => l.Length > 0)) + "\n";
    }

    /// <summary>Paragraphs from blank lines, links from addresses; everything else is text.</summary>
    public static string Html(string text, string title, IReadOnlyList<string>? heads = null)
    {
        var html = new StringBuilder($"<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>{WebUtility.HtmlEncode(title)}</title></head>\n")
            .Append("<body style=\"font:16px/1.5 sans-serif;color:#1d2933;max-width:38em;margin:1em;overflow-wrap:anywhere\">\n");
        foreach (var paragraph in text.ReplaceLineEndings("\n").Split("\n\n", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var (open, close) = heads?.Contains(paragraph) == true ? ("<h2 style=\"font-size:1em;margin-top:1.5em\">", "</h2>\n") : ("<p>", "</p>\n");
            html.Append(open).AppendJoin("<br>\n", paragraph.Split('\n').Where(l => l.Trim() != "--").Select(Line)).Append(close);
        }

        return html.Append("</body></html>\n").ToString();
    }

    private static string Line(string line)
    {
        var html = new StringBuilder();
        var end = 0;
        foreach (Match link in Address().Matches(line))
        {
            html.Append(WebUtility.HtmlEncode(line[end..link.Index]));
            var safe = WebUtility.HtmlEncode(link.Value);
            html.Append("<a href=\"").Append(safe).Append("\">").Append(safe).Append("</a>");
            end = link.Index + link.Length;
        }

        return html.Append(WebUtility.HtmlEncode(line[end..])).ToString();
    }

    [GeneratedRegex("""https?://[^\s<>"']*[^\s<>"'.,;:!?)]""", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex Address();
}
