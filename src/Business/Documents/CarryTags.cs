using PdfSharp.Pdf;
using PdfSharp.Pdf.Advanced;

namespace MitigationOffice.Business.Documents;

/// <summary>Brings along the tags of sheets taken over from another file, which taking over a page leaves behind: the tree of
/// elements goes into this file's, and the table that leads from a page's content back to its elements goes on
/// (ISO 32000-1, 14.7).</summary>
internal sealed class CarryTags
{
    private const string Kids = "/K", Parent = "/P", Page = "/Pg", OfPage = "/StructParents", Nums = "/Nums", Next = "/ParentTreeNextKey";

    private readonly PdfDocument _to;
    private readonly PdfDictionary _from;
    private readonly PdfDictionary _root;
    private readonly Dictionary<PdfDictionary, PdfPage> _pages = [];
    private readonly Dictionary<PdfDictionary, PdfDictionary> _elements = [];

    private CarryTags(PdfDocument to, PdfDictionary from, PdfDictionary root) => (_to, _from, _root) = (to, from, root);

    /// <summary>Puts the sheets of one tagged file behind those of another.</summary>
    public static void Append(PdfDocument document, PdfDocument sheets)
    {
        var carry = new CarryTags(document, RootOf(sheets), RootOf(document));
        for (var i = 0; i < sheets.PageCount; i++)
        {
            // Taking over gives the sheet another identity; the one it had names it in the tags.
            var had = (PdfDictionary)sheets.Pages[i];
            carry._pages.Add(had, document.AddPage(sheets.Pages[i]));
        }

        carry.Elements();
        carry.BackToElements();
    }

    private static PdfDictionary RootOf(PdfDocument document) =>
        document.Internals.Catalog.Elements.GetDictionary("/StructTreeRoot") ?? throw new InvalidDataException("The paper has no tags.");

    /// <summary>The taken-over document becomes a part of this one.</summary>
    private void Elements()
    {
        var whole = Things(_root.Elements[Kids]).OfType<PdfDictionary>().First();
        var into = ArrayOf(whole);
        foreach (var kid in Things(_from.Elements[Kids]).OfType<PdfDictionary>())
        {
            var part = Copy(kid, whole);
            part.Elements.SetName("/S", "/Part");
            into.Elements.Add(part.Reference!);
        }
    }

    private static PdfArray ArrayOf(PdfDictionary element)
    {
        var kids = element.Elements[Kids];
        if (kids is not null && Plain(kids) is PdfArray held) return held;
        var array = new PdfArray(element.Owner);
        if (kids is not null) array.Elements.Add(kids);
        element.Elements[Kids] = array;
        return array;
    }

    private PdfDictionary Copy(PdfDictionary element, PdfDictionary parent)
    {
        var copy = new PdfDictionary(_to);
        _to.Internals.AddObject(copy);
        _elements.Add(element, copy);
        foreach (var (key, value) in element.Elements)
            if (key is not (Kids or Parent or Page)) copy.Elements[key] = Bare(value!);
        copy.Elements.SetReference(Parent, parent);
        if (element.Elements.GetDictionary(Page) is { } page) copy.Elements.SetReference(Page, _pages[page]);
        if (element.Elements[Kids] is not { } kids) return copy;
        var own = new PdfArray(_to);
        foreach (var kid in Things(kids)) own.Elements.Add(Kid(kid, copy));
        copy.Elements[Kids] = own;
        return copy;
    }

    /// <summary>Another element, a number of marked content, or marked content on a page of its own.</summary>
    private PdfItem Kid(PdfItem kid, PdfDictionary parent)
    {
        if (kid is not PdfDictionary dictionary) return kid.Clone();
        if (!dictionary.Elements.ContainsKey("/MCID")) return Copy(dictionary, parent).Reference!;
        var content = new PdfDictionary(_to);
        foreach (var (key, value) in dictionary.Elements)
            if (key != Page) content.Elements[key] = Bare(value!);
        if (dictionary.Elements.GetDictionary(Page) is { } page) content.Elements.SetReference(Page, _pages[page]);
        return content;
    }

    /// <summary>Attributes, alternative words: values that lead nowhere else.</summary>
    private PdfItem Bare(PdfItem value)
    {
        switch (Plain(value))
        {
            case PdfArray array:
                var copy = new PdfArray(_to);
                foreach (var item in array.Elements) copy.Elements.Add(Bare(item));
                return copy;
            case PdfDictionary dictionary:
                var other = new PdfDictionary(_to);
                foreach (var (key, item) in dictionary.Elements) other.Elements[key] = Bare(item!);
                return other;
            case var plain:
                return plain.Clone();
        }
    }

    private void BackToElements()
    {
        var table = _root.Elements.GetDictionary("/ParentTree")!.Elements.GetArray(Nums)!;
        var first = _root.Elements.GetInteger(Next);
        var theirs = _from.Elements.GetDictionary("/ParentTree")!.Elements.GetArray(Nums)!.Elements;
        for (var i = 0; i + 1 < theirs.Count; i += 2)
        {
            var list = new PdfArray(_to);
            foreach (var element in Things(theirs[i + 1])) list.Elements.Add(element is PdfDictionary known ? _elements[known].Reference! : element.Clone());
            _to.Internals.AddObject(list);
            table.Elements.Add(new PdfInteger(first + theirs.GetInteger(i)));
            table.Elements.Add(list.Reference!);
        }

        foreach (var (had, page) in _pages) page.Elements.SetInteger(OfPage, first + had.Elements.GetInteger(OfPage));
        _root.Elements.SetInteger(Next, first + _from.Elements.GetInteger(Next));
    }

    private static IEnumerable<PdfItem> Things(PdfItem? item) => item is null ? [] : Plain(item) is PdfArray array ? array.Elements.Select(Plain) : [Plain(item)];

    private static PdfItem Plain(PdfItem item) => item is PdfReference reference ? reference.Value : item;
}
