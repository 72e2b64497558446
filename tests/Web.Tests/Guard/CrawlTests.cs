using System.Net;
using AngleSharp.Dom;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>What one long walk over every link shows.</summary>
[Collection(GuardCollection.Name)]
public sealed class CrawlTests(GuardOffice office)
{
    /// <summary>Pages that take more statements than ten, with the reason.</summary>
    private static readonly Dictionary<string, int> MoreStatements = [];

    /// <summary>OWASP ASVS 5.0, 3.5.3.</summary>
    [Fact]
    public async Task Looking_changes_nothing_and_queues_no_mail()
    {
        var (before, met, after) = await office.OwnersWalkAsync();
        Assert.True(before.Count > 25 && before["Outbox"][0] != '0' && before["Audit"][0] != '0', "The records are not filled.");
        Assert.True(met.Count > 150, $"Only {met.Count} links were followed.");
        Assert.Equal(before, after);
        var stood = await office.TablesAsync();
        for (var i = 0; i < 2; i++)
            foreach (var url in new[] { office.Offer.Path, office.Offer.Path + "/paper", office.Offer.Path + "/done", office.StopPath })
            {
                using var head = new HttpRequestMessage(HttpMethod.Head, url);
                await office.Visitor().GetAsync(url);
                await office.Visitor().SendAsync(head);
            }

        Assert.Equal(stood, await office.TablesAsync());
    }

    [Fact]
    public async Task No_link_is_dead_and_no_page_fails()
    {
        var met = (await office.OwnersWalkAsync()).Met.Where(m => m.Start == "/").ToList();
        var dead = met.Where(m => (int)m.Answer.StatusCode >= 400).Select(m => $"{m.Url} from {m.From}: {(int)m.Answer.StatusCode}").ToList();
        Assert.True(dead.Count == 0, string.Join('\n', dead));
        var shown = met.Select(m => m.Url.Split('?')[0]).ToHashSet(StringComparer.Ordinal);
        Assert.Superset(new HashSet<string> { "/", "/houses", "/quotes", "/work", "/tests", "/follow-up", "/state-reports", "/shop" }, shown);
    }

    /// <summary>OWASP ASVS 5.0, 3.4.3 to 3.4.6 and 3.2.1.</summary>
    [Fact]
    public async Task Every_page_carries_the_guarding_headers_and_no_script_of_its_own()
    {
        List<Met> met = [.. (await office.OwnersWalkAsync()).Met, .. await office.CrawlAsync(office.Visitor(), office.Offer.Path, office.StopPath, "/sign-in", "/not-allowed", "/nowhere")];
        var wrong = met.SelectMany(m => Faults(m).Select(f => $"{m.Url}: {f}")).ToList();
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public async Task No_page_takes_more_than_ten_statements()
    {
        var (_, met, _) = await office.OwnersWalkAsync();
        Assert.True(met.Count(m => m.Statements.Count > 0) > 50, "The counter does not count.");
        var heavy = met.Where(m => m.Start == "/" && m.Statements.Count > MoreStatements.GetValueOrDefault(Kind(m.Url), 10)).GroupBy(m => Kind(m.Url)).Select(g => $"{g.First().Url}: {g.Max(m => m.Statements.Count)}").ToList();
        Assert.True(heavy.Count == 0, string.Join('\n', heavy));
    }

    private static string Kind(string url) => string.Join('/', url.Split('?')[0].Split('/').Select(part => part.All(char.IsAsciiDigit) ? "*" : part));

    private static IEnumerable<string> Faults(Met one)
    {
        var policy = Header(one, "Content-Security-Policy");
        if (Header(one, "X-Content-Type-Options") != "nosniff") yield return "no nosniff";
        if (!one.IsHtml) yield break;
        var nonce = policy.Split("'nonce-").Skip(1).Select(rest => rest.Split('\'')[0]).FirstOrDefault("");
        if (nonce.Length < 16) yield return $"no nonce in the policy: {policy}";
        foreach (var part in new[] { "default-src 'none'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'" })
            if (!policy.Contains(part, StringComparison.Ordinal)) yield return $"no {part}";
        if (policy.Contains("unsafe", StringComparison.Ordinal)) yield return "an unsafe source";
        if (Header(one, "Referrer-Policy") != "no-referrer") yield return "no Referrer-Policy";
        if (Header(one, "Cache-Control") is var cache && !cache.Contains("no-store", StringComparison.Ordinal)) yield return $"may be kept: {cache}";
        foreach (var element in one.Document.All)
        {
            if (element.Attributes.FirstOrDefault(a => a.Name == "style" || a.Name.StartsWith("on", StringComparison.Ordinal)) is { } own) yield return $"<{element.LocalName} {own.Name}=>";
            if (element.LocalName == "style") yield return "a <style>";
            if (element.LocalName == "script" && element.GetAttribute("nonce") != nonce) yield return "a script without the header's nonce";
            if (element.GetAttribute("src") is { } src && (src.StartsWith("//", StringComparison.Ordinal) || src.StartsWith("http", StringComparison.Ordinal))) yield return $"from elsewhere: {src}";
        }
    }

    private static string Header(Met one, string name) =>
        one.Answer.Headers.TryGetValues(name, out var values) || one.Answer.Content.Headers.TryGetValues(name, out values) ? string.Join(", ", values) : "";
}
