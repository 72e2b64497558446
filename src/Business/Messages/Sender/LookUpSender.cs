namespace MitigationOffice.Business.Messages.Sender;

/// <summary>The records of a sender, looked up or pasted.</summary>
public sealed record SenderRecords(string Spf, string Dkim, string Dmarc, int LookupsInside, IReadOnlyList<string> Problems)
{
    public static IReadOnlyList<string> Lines(string pasted)
    {
        var joined = TagList.Joined(pasted);
        return pasted.Contains('"', StringComparison.Ordinal) ? [joined] : pasted.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
    }
}

/// <summary>Looks the records of a domain up, those that its SPF record includes as well.</summary>
public sealed class LookUpSender(TextRecords texts)
{
    private const int MostIncluded = 15;

    public async Task<SenderRecords> RunAsync(string domain, string selector, CancellationToken cancel = default)
    {
        var problems = new List<string>();
        using var soon = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        soon.CancelAfter(texts.Patience);
        async Task<IReadOnlyList<string>> Find(string name)
        {
            var found = await texts.FindAsync(name, soon.Token);
            if (found.Problem.Length > 0) problems.Add(found.Problem);
            return found.Texts;
        }

        var spf = (await Find(domain)).Where(JudgeSpf.IsSpf).ToList();
        var dmarc = (await Find($"_dmarc.{domain}")).Where(t => t.StartsWith("v=DMARC1", StringComparison.OrdinalIgnoreCase)).ToList();
        var dkim = selector.Length == 0 ? [] : await Find($"{selector}._domainkey.{domain}");
        var inside = problems.Count == 0 && spf.Count == 1 ? await InsideAsync(spf[0], Find) : 0;
        return new(string.Join('\n', spf), dkim.Count > 0 ? dkim[0] : "", string.Join('\n', dmarc), inside, [.. problems.Distinct(StringComparer.Ordinal)]);
    }

    private static async Task<int> InsideAsync(string record, Func<string, Task<IReadOnlyList<string>>> find)
    {
        var (lookups, waiting, seen) = (0, new Queue<string>(JudgeSpf.Included(record)), new HashSet<string>(StringComparer.OrdinalIgnoreCase));
        while (waiting.TryDequeue(out var name) && seen.Count < MostIncluded)
        {
            if (!seen.Add(name) || (await find(name)).FirstOrDefault(JudgeSpf.IsSpf) is not { } inner) continue;
            lookups += JudgeSpf.Lookups(inner);
            foreach (var next in JudgeSpf.Included(inner)) waiting.Enqueue(next);
        }

        return lookups;
    }
}
