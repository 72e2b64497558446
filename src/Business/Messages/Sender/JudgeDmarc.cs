using System.Globalization;

namespace MitigationOffice.Business.Messages.Sender;

/// <summary>Reads a DMARC policy (RFC 7489 section 6.3) and says what is right and what to change.</summary>
public static class JudgeDmarc
{
    public static IReadOnlyList<Finding> Of(IEnumerable<string> texts)
    {
        var records = texts.Select(TagList.Joined).Where(t => t.StartsWith("v=DMARC1", StringComparison.OrdinalIgnoreCase)).ToList();
        if (records.Count == 0) return [new(Stands.Change, "There is no DMARC policy. Add a text record under _dmarc: begin with v=DMARC1; p=none; rua=mailto:your address.", "RFC 7489 section 6.1")];
        if (records.Count > 1) return [new(Stands.Change, $"There are {records.Count} DMARC policies; receivers then take none. Keep one.", "RFC 7489 section 6.6.3")];
        if (TagList.Read(records[0]) is not { } tags) return [new(Stands.Change, "The policy cannot be read: a part has no “=”, or stands in it twice.", "RFC 7489 section 6.4")];
        if (tags["v"] != "DMARC1") return [new(Stands.Change, "v= must be DMARC1, in capitals.", "RFC 7489 section 6.3")];
        return [.. Judge(tags)];
    }

    public static bool IsStrict(IEnumerable<string> texts, string tag) =>
        texts.Select(TagList.Joined).Where(t => t.StartsWith("v=DMARC1", StringComparison.OrdinalIgnoreCase)).Select(TagList.Read).FirstOrDefault()?.GetValueOrDefault(tag) == "s";

    private static IEnumerable<Finding> Judge(IReadOnlyDictionary<string, string> tags)
    {
        yield return tags.GetValueOrDefault("p") switch
        {
            "reject" => new(Stands.Right, "p=reject: mail that is not yours is refused.", "RFC 7489 section 6.3"),
            "quarantine" => new(Stands.Right, "p=quarantine: mail that is not yours goes to the spam folder. When the reports stay clean, go on to reject.", "RFC 7489 section 6.3"),
            "none" => new(Stands.Look, "p=none only watches. That is the right beginning; when the reports show that all your own mail passes, go on to quarantine.", "RFC 7489 section 6.3"),
            null => new(Stands.Change, "p= is missing; without it the policy does nothing.", "RFC 7489 section 6.3"),
            var other => new(Stands.Change, $"p={other} is not a policy: write none, quarantine or reject.", "RFC 7489 section 6.3"),
        };
        if (tags.TryGetValue("sp", out var sub) && sub is not ("none" or "quarantine" or "reject")) yield return new(Stands.Change, $"sp={sub} is not a policy: write none, quarantine or reject.", "RFC 7489 section 6.3");
        yield return tags.TryGetValue("rua", out var to) && to.Split(',').All(u => u.Trim().StartsWith("mailto:", StringComparison.OrdinalIgnoreCase))
            ? new(Stands.Right, $"Reports go to {to.Replace("mailto:", "", StringComparison.OrdinalIgnoreCase)}.", "RFC 7489 section 7.1")
            : new(Stands.Look, "No reports are asked for. Add rua=mailto:your address, to see who sends in your name.", "RFC 7489 section 7.1");
        if (tags.TryGetValue("pct", out var share) && !(int.TryParse(share, NumberStyles.None, CultureInfo.InvariantCulture, out var percent) && percent <= 100))
            yield return new(Stands.Change, "pct= must be a whole number from 0 to 100.", "RFC 7489 section 6.3");
        else if (share is not null and not "100") yield return new(Stands.Look, $"The policy is applied to {share} percent of the mail only.", "RFC 7489 section 6.3");
        foreach (var (tag, name) in new[] { ("adkim", "DKIM"), ("aspf", "SPF") })
            if (tags.TryGetValue(tag, out var mode) && mode is not ("r" or "s")) yield return new(Stands.Change, $"{tag}={mode}: the match for {name} must be r or s.", "RFC 7489 section 6.3");
    }
}
