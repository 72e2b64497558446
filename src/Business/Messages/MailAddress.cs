using MimeKit;

namespace MitigationOffice.Business.Messages;

public static class MailAddress
{
    private static readonly ParserOptions Strict = new() { AddressParserComplianceMode = RfcComplianceMode.Strict, AllowAddressesWithoutDomain = false };

    public static bool IsUsable(string? typed) => TryRead(typed, out _);

    /// <summary>The form in which addresses are compared: opt-outs must hold however the address is capitalised.</summary>
    public static string KeyOf(string address) => address.Trim().ToLowerInvariant();

    public static MailboxAddress Read(string typed, string name) => TryRead(typed, out var mailbox)
        ? new MailboxAddress(OneLine(name), mailbox.Address)
        : throw new FormatException($"“{OneLine(typed)}” is not an e-mail address that can be written to.");

    /// <summary>Line breaks and other control characters become spaces, so that no name can add a header of its own.</summary>
    public static string OneLine(string text) =>
        string.Join(' ', new string([.. text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c)]).Split(' ', StringSplitOptions.RemoveEmptyEntries));

    private static bool TryRead(string? typed, out MailboxAddress mailbox)
    {
        mailbox = null!;
        var text = typed?.Trim() ?? "";
        if (text.Length is < 3 or > 254 || text.Any(c => char.IsControl(c) || char.IsWhiteSpace(c) || c is '<' or '>' or ',' or ';' or '"')) return false;
        if (!MailboxAddress.TryParse(Strict, text, out var read) || read.Address != text) return false;
        mailbox = read;
        return text.LastIndexOf('@') is > 0 and var at && at < text.Length - 1;
    }
}
