namespace MitigationOffice.Business.Messages.Sender;

/// <summary>"v=DKIM1; k=rsa; p=…": the form of DKIM keys and DMARC policies (RFC 6376 section 3.2).</summary>
public static class TagList
{
    /// <summary>Null when it is no such list, or a tag stands in it twice.</summary>
    public static IReadOnlyDictionary<string, string>? Read(string text)
    {
        var tags = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var part in text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var at = part.IndexOf('=', StringComparison.Ordinal);
            if (at < 1 || !tags.TryAdd(part[..at].Trim(), part[(at + 1)..].Trim())) return null;
        }

        return tags;
    }

    /// <summary>As records are pasted: in quotes, in several strings, over several lines.</summary>
    public static string Joined(string pasted)
    {
        var text = pasted.ReplaceLineEndings(" ").Trim();
        return text.Contains('"', StringComparison.Ordinal) ? string.Concat(text.Split('"').Where((_, i) => i % 2 == 1)) : text;
    }
}
