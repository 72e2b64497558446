using System.Net;

namespace MitigationOffice.Business.Messages.Sender;

/// <summary>Reads an SPF record (RFC 7208) and says what is right and what to change.</summary>
public static class JudgeSpf
{
    public const int MostLookups = 10;
    private static readonly string[] Looking = ["include", "a", "mx", "ptr", "exists", "redirect"];

    /// <param name="texts">The text records of the domain; those that are no SPF record are passed over.</param>
    /// <param name="lookupsInside">Lookups found inside included records, where they could be read.</param>
    public static IReadOnlyList<Finding> Of(IEnumerable<string> texts, int lookupsInside = 0)
    {
        var records = texts.Select(t => t.Trim().Trim('"')).Where(IsSpf).ToList();
        if (records.Count == 0) return [new(Stands.Change, "There is no SPF record. Add a text record for the domain that names your mail provider, such as v=spf1 include:… -all; the provider tells you the name to include.", "RFC 7208 section 3")];
        if (records.Count > 1) return [new(Stands.Change, $"There are {records.Count} SPF records. Receivers then take none of them: put everything into one.", "RFC 7208 section 4.5")];
        return [.. Terms(records[0], lookupsInside)];
    }

    public static bool IsSpf(string text) =>
        text.Equals("v=spf1", StringComparison.OrdinalIgnoreCase) || text.StartsWith("v=spf1 ", StringComparison.OrdinalIgnoreCase);

    /// <summary>Domains whose own records count with this one.</summary>
    public static IReadOnlyList<string> Included(string record) =>
        [.. Split(record).Where(t => t.Name is "include" or "redirect").Select(t => t.Value).Where(v => v.Length > 0 && !v.Contains('%', StringComparison.Ordinal))];

    public static int Lookups(string record) => Split(record).Count(t => Looking.Contains(t.Name));

    private static IEnumerable<Finding> Terms(string record, int inside)
    {
        var terms = Split(record);
        foreach (var term in terms.Where(t => !IsKnown(t)))
            yield return new(Stands.Change, $"“{term.Text}” is not a term of SPF, or its value is wrong; with it the whole record is an error.", "RFC 7208 section 4.6.1");
        var lookups = terms.Count(t => Looking.Contains(t.Name)) + inside;
        if (lookups > MostLookups)
            yield return new(Stands.Change, $"The record makes receivers look up {lookups} names; more than {MostLookups} is an error. Take out services you no longer use.", "RFC 7208 section 4.6.4");
        else yield return new(Stands.Right, $"{lookups} look-up{(lookups == 1 ? "" : "s")}{(inside > 0 ? ", included records counted" : "")}; up to {MostLookups} are allowed.", "RFC 7208 section 4.6.4");
        if (terms.Any(t => t.Name == "ptr")) yield return new(Stands.Change, "Take out “ptr”: it is slow and is not to be used.", "RFC 7208 section 5.5");
        if (record.Length > 450) yield return new(Stands.Look, $"The record is {record.Length} characters long; from about 450 on, answers may not fit a small DNS packet.", "RFC 7208 section 3.4");
        yield return All(terms);
        var all = terms.FindIndex(t => t.Name == "all");
        if (all >= 0 && terms.Skip(all + 1).Any(t => t.Name is not ("redirect" or "exp"))) yield return new(Stands.Look, "What stands after “all” is never looked at.", "RFC 7208 section 5.1");
        if (!terms.Any(t => t.Name is "include" or "ip4" or "ip6" or "a" or "mx" or "exists" or "redirect"))
            yield return new(Stands.Change, "The record lets no server send. Add what your mail provider tells you, usually an include.", "RFC 7208 section 5");
    }

    private static Finding All(List<Term> terms)
    {
        if (terms.FirstOrDefault(t => t.Name == "all") is not { } all)
            return terms.Any(t => t.Name == "redirect")
                ? new(Stands.Right, "The record hands over to another one by redirect, which decides.", "RFC 7208 section 6.1")
                : new(Stands.Look, "The record does not end with “all”; receivers then draw no conclusion about other servers. End it with ~all or -all.", "RFC 7208 section 4.7");
        return all.Sign switch
        {
            '-' => new(Stands.Right, "-all: mail from other servers is not yours.", "RFC 7208 section 8.4"),
            '~' => new(Stands.Right, "~all: mail from other servers is probably not yours. That is enough together with DMARC.", "RFC 7208 section 8.5"),
            '?' => new(Stands.Look, "?all says nothing about other servers; use ~all or -all.", "RFC 7208 section 8.2"),
            _ => new(Stands.Change, "+all lets every server in the world send in your name. Change it to ~all or -all.", "RFC 7208 section 5.1"),
        };
    }

    private sealed record Term(string Text, char Sign, string Name, string Value);

    private static List<Term> Split(string record) => [.. record.Split(' ', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(text =>
    {
        var sign = text[0] is '+' or '-' or '~' or '?' ? text[0] : '+';
        var rest = text[0] == sign ? text[1..] : text;
        var at = rest.IndexOfAny([':', '=', '/']);
        return new Term(text, sign, (at < 0 ? rest : rest[..at]).ToLowerInvariant(), at < 0 ? "" : rest[at] == '/' ? rest[at..] : rest[(at + 1)..]);
    })];

    private static bool IsKnown(Term term) => term.Name switch
    {
        "all" => term.Value.Length == 0,
        "include" or "exists" or "redirect" or "exp" => term.Value.Contains('.', StringComparison.Ordinal),
        "a" or "mx" or "ptr" => true,
        "ip4" => IPAddress.TryParse(term.Value.Split('/')[0], out var ip) && ip.AddressFamily == System.Net.Sockets.AddressFamily.InterNetwork && Prefix(term.Value, 32),
        "ip6" => IPAddress.TryParse(term.Value.Split('/')[0], out var ip) && ip.AddressFamily == System.Net.Sockets.AddressFamily.InterNetworkV6 && Prefix(term.Value, 128),
        // A modifier that is not known is passed over (section 6).
        _ => term.Text.Contains('=', StringComparison.Ordinal) && term.Sign == '+' && term.Name.Length > 0,
    };

    private static bool Prefix(string value, int most) =>
        value.Split('/') is not [_, var bits] || (int.TryParse(bits, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n) && n <= most);
}
