namespace MitigationOffice.Business.Messages.Sender;

/// <summary>Whether the domain in From is the one that SPF or DKIM vouches for (RFC 7489 section 3.1). One of the two is enough.</summary>
public static class JudgeAlignment
{
    public static IReadOnlyList<Finding> Of(string from, string dkimDomain, bool dkimStrict, string spfDomain, bool spfStrict)
    {
        var dkim = One("DKIM", "signs for", "RFC 7489 section 3.1.1", from, dkimDomain, dkimStrict);
        var spf = One("SPF", "has as return address", "RFC 7489 section 3.1.2", from, spfDomain, spfStrict);
        var both = new[] { dkim, spf };
        return both.Any(f => f.Stands == Stands.Right)
            ? [.. both.Select(f => f.Stands == Stands.Change ? f with { Stands = Stands.Look } : f)]
            : [.. both, new(Stands.Change, $"Neither of the two agrees with the sender {from}: DMARC fails for every message. Have your provider sign for {from}.", "RFC 7489 section 3.1")];
    }

    private static Finding One(string name, string does, string source, string from, string domain, bool strict)
    {
        if (domain.Length == 0) return new(Stands.Look, $"{name}: the domain is not known. Look into the headers of a message you sent yourself.", source);
        if (Same(from, domain)) return new(Stands.Right, $"{name}: your provider {does} {domain}, the sender's own domain.", source);
        if (!strict && (Below(from, domain) || Below(domain, from))) return new(Stands.Right, $"{name}: your provider {does} {domain}, which belongs to {from}; the loose match is enough.", source);
        if (Below(from, domain) || Below(domain, from)) return new(Stands.Change, $"{name}: your provider {does} {domain}, but the policy asks for exactly {from} (strict match).", source);
        return new(Stands.Change, $"{name}: your provider {does} {domain}, which is not {from}.", source);
    }

    private static bool Same(string a, string b) => a.Equals(b, StringComparison.OrdinalIgnoreCase);

    private static bool Below(string domain, string parent) =>
        parent.Contains('.', StringComparison.Ordinal) && domain.EndsWith("." + parent, StringComparison.OrdinalIgnoreCase);
}
