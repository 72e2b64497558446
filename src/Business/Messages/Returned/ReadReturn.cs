using System.Text;
using System.Text.RegularExpressions;
using MimeKit;

namespace MitigationOffice.Business.Messages.Returned;

/// <summary>Reads a message that came back: a delivery status notification (RFC 3464), or the text that servers without one write.
/// What it reads was written by strangers: nothing in it is believed but numbers, addresses and Message-IDs.</summary>
public static partial class ReadReturn
{
    public const int LongestBytes = 2_000_000;
    private const int MostRecipients = 50;
    private const int LongestWords = 400;
    private const int ReadCharacters = 100_000;
    private static readonly ParserOptions Careful = new() { MaxMimeDepth = 24 };

    /// <returns>One report a recipient; empty when this is no report at all.</returns>
    /// <exception cref="FormatException">Not a message, or longer than any report is.</exception>
    public static IReadOnlyList<ReturnReport> Of(byte[] raw)
    {
        if (raw.Length > LongestBytes) throw new FormatException("This is longer than a report of returned mail ever is (2 MB). Paste only its beginning.");
        MimeMessage message;
        try
        {
            using var bytes = new MemoryStream(raw);
            message = MimeMessage.Load(Careful, bytes);
        }
        catch (Exception e) when (e is FormatException or ParseException or IOException or ArgumentException)
        {
            throw new FormatException("This cannot be read as an e-mail message. Paste the whole returned message with its headers, or upload it as a file.", e);
        }

        var parts = Parts(message.Body, 0).Take(200).ToList();
        var text = string.Join('\n', parts.OfType<TextPart>().Take(5).Select(Text).Append(message.Subject ?? ""));
        var ids = parts.SelectMany(IdsOf).Concat(IdsIn(text)).Distinct(StringComparer.OrdinalIgnoreCase).Take(20).ToList();
        var status = parts.OfType<MessageDeliveryStatus>().ToList();
        if (status.Count > 0) return [.. status.SelectMany(Groups).Take(MostRecipients).Select(g => g with { MessageIds = ids })];
        return LooksReturned(message) ? [OfText(text, ids)] : [];
    }

    /// <summary>A pasted text need not have headers.</summary>
    public static IReadOnlyList<ReturnReport> OfPasted(string pasted)
    {
        try
        {
            if (Of(Encoding.UTF8.GetBytes(pasted.TrimStart())) is { Count: > 0 } reports) return reports;
        }
        catch (FormatException) when (Encoding.UTF8.GetByteCount(pasted) <= LongestBytes)
        {
            // No headers: only the words were pasted.
        }

        var ids = IdsIn(pasted[..Math.Min(pasted.Length, ReadCharacters)]).Take(20).ToList();
        return ids.Count == 0 && !Code().IsMatch(pasted) ? [] : [OfText(pasted[..Math.Min(pasted.Length, ReadCharacters)], ids)];
    }

    private static IEnumerable<ReturnReport> Groups(MessageDeliveryStatus part)
    {
        HeaderListCollection groups;
        try
        {
            groups = part.StatusGroups;
        }
        catch (Exception e) when (e is FormatException or ParseException or IOException)
        {
            yield break;
        }

        foreach (var group in groups.Skip(1).Take(MostRecipients))
        {
            var recipients = new[] { group["Final-Recipient"], group["Original-Recipient"] }.Select(Address).Where(a => a.Length > 0).Distinct(StringComparer.Ordinal).ToList();
            var status = Code().Match(group["Status"] ?? "").Value;
            yield return new([], recipients, (group["Action"] ?? "").Trim().ToLowerInvariant(), status, Short(group["Diagnostic-Code"] ?? group["Status"] ?? ""));
        }
    }

    private static ReturnReport OfText(string text, IReadOnlyList<string> ids)
    {
        var code = Code().Match(text);
        var plain = PlainCode().Match(text);
        var status = code.Success ? code.Value : plain.Success && plain.Groups[1].Value is "550" or "551" or "553" ? "5.1.1" : plain.Success ? $"{plain.Groups[1].Value[0]}.0.0" : "";
        var line = text.Split('\n').FirstOrDefault(l => Code().IsMatch(l) || PlainCode().IsMatch(l)) ?? text;
        var delayed = Delay().IsMatch(text) && !status.StartsWith('5');
        return new(ids, [.. Mailbox().Matches(text).Select(m => MailAddress.KeyOf(m.Value)).Distinct(StringComparer.Ordinal).Take(40)], delayed ? "delayed" : "", status, Short(line));
    }

    private static bool LooksReturned(MimeMessage message) =>
        Daemon().IsMatch(message.From.ToString()) || (message.Headers["Return-Path"]?.Trim() is "<>") || Subject().IsMatch(message.Subject ?? "");

    private static IEnumerable<MimeEntity> Parts(MimeEntity? entity, int depth)
    {
        if (entity is null || depth > 24) yield break;
        yield return entity;
        if (entity is not Multipart several) yield break;
        foreach (var inner in several.Take(50).SelectMany(p => Parts(p, depth + 1))) yield return inner;
    }

    private static IEnumerable<string> IdsOf(MimeEntity part) => part switch
    {
        MessagePart { Message: { } returned } => returned.MessageId is { Length: > 0 } id ? [id] : [],
        TextPart { ContentType.MimeType: "text/rfc822-headers" } headers => IdsIn(Text(headers)),
        _ => [],
    };

    private static IEnumerable<string> IdsIn(string text) => OurId().Matches(text).Select(m => m.Value.ToLowerInvariant());

    private static string Text(TextPart part)
    {
        try
        {
            var text = part.Text ?? "";
            return text[..Math.Min(text.Length, ReadCharacters)];
        }
        catch (Exception e) when (e is FormatException or IOException or ArgumentException or NotSupportedException)
        {
            return "";
        }
    }

    /// <summary>"rfc822; name@example.org" and the same without its type.</summary>
    private static string Address(string? field) => Mailbox().Match(field ?? "") is { Success: true } found ? MailAddress.KeyOf(found.Value) : "";

    private static string Short(string words) => MailAddress.OneLine(words) is { Length: > LongestWords } long_ ? long_[..LongestWords] : MailAddress.OneLine(words);

    [GeneratedRegex(@"\b[245]\.\d{1,3}\.\d{1,3}\b", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex Code();

    [GeneratedRegex(@"\b(4[25][0-9]|55[0-4])[ \-:]", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex PlainCode();

    [GeneratedRegex(@"\b[0-9a-f]{40}@[A-Za-z0-9.\-]{1,253}", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex OurId();

    [GeneratedRegex("""[^\s<>()\[\]:;,"']{1,64}@[^\s<>()\[\]:;,"']{1,253}""", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex Mailbox();

    [GeneratedRegex("mailer-daemon|postmaster|mail delivery", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Daemon();

    [GeneratedRegex("undeliver|delivery (status|failure|has failed|failed)|returned mail|not delivered|failure notice", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Subject();

    [GeneratedRegex("delayed|will (keep|continue) (on )?try|temporar|still trying", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Delay();
}
