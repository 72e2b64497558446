using System.Net;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>One answer met on the way from a start.</summary>
public sealed record Met(string Url, string From, string Start, HttpResponseMessage Answer, string Body, IReadOnlyList<string> Statements)
{
    public bool IsHtml => Answer.Content.Headers.ContentType?.MediaType == "text/html";
    public IHtmlDocument Document => new HtmlParser().ParseDocument(Body);
}

/// <summary>Follows every link, image, script, style sheet and searching form by GET, as a person with much time would.</summary>
public static class Crawl
{
    /// <summary>Lists that page on for ever (weeks, months) are followed this often for one set of names in the query.</summary>
    private const int MostOfOneKind = 4;

    public static async Task<List<Met>> CrawlAsync(this OfficeApp office, HttpClient client, params IEnumerable<string> starts)
    {
        var (met, seen, kinds) = (new List<Met>(), new HashSet<string>(StringComparer.Ordinal), new Dictionary<string, int>(StringComparer.Ordinal));
        foreach (var start in starts)
        {
            var waiting = new Queue<(string Url, string From)>([(start, "the start")]);
            while (waiting.TryDequeue(out var next))
            {
                if (!seen.Add(next.Url) || !Wanted(kinds, next.Url)) continue;
                var (answer, statements) = await office.CountSqlAsync(() => client.GetAsync(next.Url));
                var one = new Met(next.Url, next.From, start, answer, await answer.Content.ReadAsStringAsync(), statements);
                met.Add(one);
                if (answer.Headers.Location is { } to && Local(next.Url, to.OriginalString) is { } led) waiting.Enqueue((led, next.Url));
                if (!one.IsHtml) continue;
                foreach (var link in Links(one.Document).Select(l => Local(next.Url, l)).OfType<string>()) waiting.Enqueue((link, next.Url));
            }
        }

        return met;
    }

    public static IEnumerable<string> Links(IDocument page) =>
        page.QuerySelectorAll("a[href],link[href]").Select(e => e.GetAttribute("href")!)
            .Concat(page.QuerySelectorAll("img[src],script[src]").Select(e => e.GetAttribute("src")!))
            .Concat(page.QuerySelectorAll("form[method=get],form:not([method])").Select(e => e.GetAttribute("action") ?? ""));

    private static bool Wanted(Dictionary<string, int> kinds, string url)
    {
        var (path, query) = (url.Split('?')[0], url.Contains('?', StringComparison.Ordinal) ? url.Split('?')[1] : "");
        if (query.Length == 0) return true;
        var kind = path + "?" + string.Join('&', query.Split('&').Select(p => p.StartsWith("handler=", StringComparison.Ordinal) ? p : p.Split('=')[0]).Order(StringComparer.Ordinal));
        return (kinds[kind] = kinds.GetValueOrDefault(kind) + 1) <= MostOfOneKind;
    }

    private static string? Local(string page, string link)
    {
        var absolute = new Uri(new Uri("http://localhost" + page), link);
        return absolute is { Scheme: "http", Host: "localhost" } ? absolute.PathAndQuery : null;
    }
}
