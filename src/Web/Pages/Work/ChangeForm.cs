using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A change order as it is typed. Who sees no prices types none: those of the price book are taken, those written before are kept.</summary>
public sealed class ChangeForm
{
    private const int EmptyLines = 2;

    /// <summary>A line of the work as it stands, and what becomes of it.</summary>
    public sealed class Standing
    {
        public string Key { get; set; } = "";
        public ChangeKind? What { get; set; }
        public string? Words { get; set; }
        public string? Quantity { get; set; }
        public string? Price { get; set; }
    }

    /// <summary>A line that is added.</summary>
    public sealed class Adding
    {
        public int Id { get; set; }
        public int? Item { get; set; }
        public string? Words { get; set; }
        public string? Quantity { get; set; }
        public string? Unit { get; set; }
        public string? Price { get; set; }
        public bool Taxable { get; set; }
        public bool IsEmpty => Item is null && string.IsNullOrWhiteSpace(Words + Quantity + Unit + Price);
    }

    public string? Reason { get; set; }
    public string? TimeEffect { get; set; }
    public List<Standing> Stands { get; set; } = [];
    public List<Adding> Added { get; set; } = [];

    public static ChangeForm Of(ChangeOrder order, Scope scope) => new()
    {
        Reason = order.Reason,
        TimeEffect = order.TimeEffect,
        Stands = [.. scope.Lines.Select(l => Of(l, order.Lines.FirstOrDefault(c => c.Of == l.Key)))],
        Added =
        [
            .. order.Lines.Where(l => l.Kind == ChangeKind.Added).OrderBy(l => l.Position).Select(l => new Adding
            {
                Id = l.Id, Words = l.Words, Quantity = TypedNumbers.Plain(l.Quantity), Unit = l.Unit, Price = l.Priced ? TypedNumbers.Plain(l.UnitPrice) : "", Taxable = l.Taxable,
            }),
            .. Enumerable.Range(0, EmptyLines).Select(_ => new Adding()),
        ],
    };

    private static Standing Of(ScopeLine l, ChangeLine? c) => new()
    {
        Key = l.Key, What = c?.Kind, Words = c is { Kind: ChangeKind.Changed } ? c.Words : l.Words, Quantity = TypedNumbers.Plain(c is { Kind: ChangeKind.Changed } ? c.Quantity : l.Quantity),
        Price = TypedNumbers.Plain(c is { Kind: ChangeKind.Changed } ? c.UnitPrice : l.UnitPrice),
    };

    /// <summary>The lines that were typed; what cannot be read is refused at its field.</summary>
    public List<ChangeLine> Read(FormReading read, ChangeOrder order, Scope scope, IReadOnlyList<PriceItem> book, Money labourPrice, bool prices)
    {
        var lines = new List<ChangeLine>();
        for (var i = 0; i < Stands.Count; i++)
            if (Stands[i].What is { } what && Enum.IsDefined(what) && what != ChangeKind.Added) lines.Add(Read(read, Stands[i], $"{nameof(Stands)}[{i}].", what, order, scope, prices));
        for (var i = 0; i < Added.Count; i++)
            if (!Added[i].IsEmpty) lines.Add(Read(read, Added[i], $"{nameof(Added)}[{i}].", order, book, labourPrice, prices));
        return lines;
    }

    private static ChangeLine Read(FormReading read, Standing s, string at, ChangeKind what, ChangeOrder order, Scope scope, bool prices)
    {
        var (was, before) = (scope.Lines.FirstOrDefault(l => l.Key == s.Key), order.Lines.FirstOrDefault(l => l.Of == s.Key && l.Kind == what));
        var line = new ChangeLine { Kind = what, Of = s.Key, WasWords = was?.Words ?? before?.WasWords ?? "A line", WasAmount = was?.Amount ?? Money.Zero, Taxable = was?.Taxable ?? false, Priced = true };
        if (what == ChangeKind.TakenOut) return line;
        line.Words = read.Text(s.Words, at + nameof(s.Words), "words of the line", needed: true, most: 300);
        line.Quantity = read.Number(s.Quantity, at + nameof(s.Quantity), "quantity", 0, 100_000) ?? 1;
        line.Unit = was?.Unit ?? "each";
        line.UnitPrice = prices ? read.Money(s.Price, at + nameof(s.Price), "price", needed: true) ?? Money.Zero : before?.UnitPrice ?? was?.UnitPrice ?? Money.Zero;
        return line;
    }

    private static ChangeLine Read(FormReading read, Adding a, string at, ChangeOrder order, IReadOnlyList<PriceItem> book, Money labourPrice, bool prices)
    {
        var (item, before) = (book.FirstOrDefault(p => p.Id == a.Item), order.Lines.FirstOrDefault(l => l.Id == a.Id && a.Id > 0));
        var line = new ChangeLine { Kind = ChangeKind.Added, PriceItemId = item?.Id ?? before?.PriceItemId };
        line.Words = read.Text(string.IsNullOrWhiteSpace(a.Words) && item is not null ? item.Name : a.Words, at + nameof(a.Words), "words of the line", needed: true, most: 300);
        line.Quantity = read.Number(a.Quantity, at + nameof(a.Quantity), "quantity", 0, 100_000) ?? 1;
        line.Unit = read.Text(string.IsNullOrWhiteSpace(a.Unit) ? item?.Unit ?? "each" : a.Unit, at + nameof(a.Unit), "unit", most: 20);
        line.Taxable = item?.Taxable ?? (prices ? a.Taxable : before?.Taxable ?? false);
        Money? typed = prices ? ReadPrice(read, a.Price, at + nameof(a.Price)) : before is { Priced: true } ? before.UnitPrice : null;
        (line.UnitPrice, line.Priced) = typed is { } price ? (price, true) : item is not null ? (item.PriceAt(labourPrice), true) : (Money.Zero, false);
        return line;
    }

    /// <summary>A price below zero gives something back: "−50".</summary>
    private static Money? ReadPrice(FormReading read, string? typed, string field)
    {
        var text = (typed ?? "").Trim().Replace('−', '-');
        if (text.Length == 0) return null;
        return text[0] == '-' ? Money.Zero - (read.Money(text[1..], field, "price") ?? Money.Zero) : read.Money(text, field, "price");
    }
}
