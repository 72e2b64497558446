using System.Globalization;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;

namespace MitigationOffice.Business.Tests.Documents;

/// <summary>Walks a paper's tags as a screen reader's library does, by a second PDF library: from the document down to the content
/// of each page, and from each page's content up to the document (ISO 32000-1, 14.6 to 14.8).</summary>
internal sealed class PdfTags : IDisposable
{
    private readonly PdfDocument _pdf;
    private readonly DictionaryToken _catalog;
    private readonly DictionaryToken _root;

    public PdfTags(byte[] bytes)
    {
        _pdf = PdfDocument.Open(bytes);
        _catalog = _pdf.Structure.Catalog.CatalogDictionary;
        _root = Dictionary(_catalog, "StructTreeRoot") ?? throw new InvalidDataException("no StructTreeRoot");
        Walk(_root, NumberOf(_catalog, "StructTreeRoot"), null, 0);
    }

    /// <summary>Marked content that the tree of elements reaches: object number of the page, and its number on it.</summary>
    private readonly HashSet<(long Page, int Content)> _reached = [];

    public List<string> Kinds { get; } = [];

    /// <summary>What is wrong, in sentences; none where all of it hangs together.</summary>
    public List<string> Faults()
    {
        var faults = new List<string>();
        if (Dictionary(_catalog, "MarkInfo")?.Data.GetValueOrDefault("Marked") is not BooleanToken { Data: true }) faults.Add("The file does not say that it is marked.");
        if (_catalog.Data.GetValueOrDefault("Lang") is null) faults.Add("The language is not said.");
        var table = Numbered();
        if (table.Keys.Count > 0 && (_root.Data["ParentTreeNextKey"] as NumericToken)?.Int <= table.Keys.Max()) faults.Add("The next key of the parent tree is taken already.");
        var used = new HashSet<int>();
        foreach (var page in _pdf.GetPages()) faults.AddRange(OfPage(page, table, used));
        return faults;
    }

    private List<string> OfPage(Page page, Dictionary<int, ArrayToken> table, HashSet<int> used)
    {
        var (n, id) = (page.Number, PageObject(page.Number));
        if (page.Dictionary.Data.GetValueOrDefault("StructParents") is not NumericToken { Int: var key }) return [$"Page {n} leads to no elements."];
        if (!used.Add(key)) return [$"Page {n} shares its number with another."];
        if (!table.TryGetValue(key, out var parents)) return [$"Page {n} is not in the parent tree."];
        var faults = new List<string>();
        var contents = Flat(page.GetMarkedContents()).ToList();
        var marked = contents.Where(c => !c.IsArtifact && c.MarkedContentIdentifier >= 0).ToList();
        if (marked.Count == 0) faults.Add($"Page {n} has no marked content.");
        foreach (var content in marked.Select(c => c.MarkedContentIdentifier))
        {
            if (!_reached.Contains((id, content))) faults.Add($"Content {content} of page {n} is not reached from the document.");
            if (content >= parents.Length || Resolved(parents[content]) is not DictionaryToken element) faults.Add($"Content {content} of page {n} has no element.");
            else if (!ReachesRoot(element)) faults.Add($"The element of content {content} of page {n} does not lead up to the document.");
        }

        var bare = page.Letters.Count - contents.Sum(c => c.Letters.Count);
        if (bare != 0) faults.Add($"{bare} letters of page {n} are in no marked content.");
        return faults;
    }

    private static IEnumerable<MarkedContentElement> Flat(IEnumerable<MarkedContentElement> some) => some.SelectMany(c => Flat(c.Children).Prepend(c));

    private void Walk(DictionaryToken element, long? number, long? page, int depth)
    {
        if (depth > 50) throw new InvalidDataException("the tree of elements goes round");
        if (element.Data.GetValueOrDefault("S") is NameToken kind) Kinds.Add(kind.Data);
        var on = NumberOf(element, "Pg") ?? page;
        if (!element.Data.TryGetValue("K", out var kids)) return;
        foreach (var kid in Resolved(kids) is ArrayToken array ? array.Data : [kids])
            switch (Resolved(kid))
            {
                case NumericToken content:
                    _reached.Add((on!.Value, content.Int));
                    break;
                case DictionaryToken content when content.Data.GetValueOrDefault("MCID") is NumericToken id:
                    _reached.Add(((NumberOf(content, "Pg") ?? on)!.Value, id.Int));
                    break;
                case DictionaryToken child:
                    if (NumberOf(child, "P") != number) throw new InvalidDataException($"an element below {Kinds.LastOrDefault()} names another parent");
                    Walk(child, (kid as IndirectReferenceToken)?.Data.ObjectNumber, on, depth + 1);
                    break;
            }
    }

    private static long? NumberOf(DictionaryToken element, string key) => element.Data.GetValueOrDefault(key) is IndirectReferenceToken to ? to.Data.ObjectNumber : null;

    private bool ReachesRoot(DictionaryToken element)
    {
        for (var depth = 0; depth < 50; depth++)
        {
            if (element.Data.GetValueOrDefault("Type") is NameToken { Data: "StructTreeRoot" }) return true;
            if (Dictionary(element, "P") is not { } parent) return false;
            element = parent;
        }

        return false;
    }

    private Dictionary<int, ArrayToken> Numbered()
    {
        var nums = (ArrayToken)Resolved(Dictionary(_root, "ParentTree")!.Data["Nums"]);
        return Enumerable.Range(0, nums.Length / 2).ToDictionary(i => ((NumericToken)nums[2 * i]).Int, i => (ArrayToken)Resolved(nums[2 * i + 1]));
    }

    private long PageObject(int number)
    {
        var all = Pages(Dictionary(_catalog, "Pages")!).ToList();
        return all[number - 1];
    }

    private IEnumerable<long> Pages(DictionaryToken node)
    {
        foreach (var kid in ((ArrayToken)Resolved(node.Data["Kids"])).Data.Cast<IndirectReferenceToken>())
        {
            var child = (DictionaryToken)Resolved(kid);
            if (child.Data.ContainsKey("Kids")) foreach (var page in Pages(child)) yield return page;
            else yield return kid.Data.ObjectNumber;
        }
    }

    private DictionaryToken? Dictionary(DictionaryToken of, string key) => of.Data.TryGetValue(key, out var value) ? Resolved(value) as DictionaryToken : null;

    private IToken Resolved(IToken token) => token is IndirectReferenceToken reference ? _pdf.Structure.GetObject(reference.Data).Data : token;

    public void Dispose() => _pdf.Dispose();

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Kinds.Count} elements, {_reached.Count} contents");
}
