using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Invoices;

/// <summary>An invoice as it is typed; a line left empty is ignored.</summary>
public sealed class FreeForm
{
    private const int EmptyLines = 3;

    public sealed class Line
    {
        public string? Words { get; set; }
        public LineKind Kind { get; set; } = LineKind.Labour;
        public string? Quantity { get; set; }
        public string? Unit { get; set; }
        public string? Price { get; set; }
        public string? Discount { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(Words + Quantity + Unit + Price + Discount);
    }

    public int CustomerId { get; set; }
    public string? Subject { get; set; }
    public string? DueOn { get; set; }
    public List<Line> Lines { get; set; } = [];
    public string? NoTaxBecause { get; set; }
    public string? Note { get; set; }
    public bool Letter { get; set; } = true;

    public void AddEmptyLines() => Lines.AddRange(Enumerable.Range(0, EmptyLines).Select(_ => new Line()));

    public FreeInvoice Read(int houseId, FormReading read)
    {
        var due = read.Day(DueOn, nameof(DueOn), "day it is due", needed: true) ?? default;
        var lines = new List<InvoiceLine>();
        for (var i = 0; i < Lines.Count; i++)
            if (!Lines[i].IsEmpty) lines.Add(Read(Lines[i], $"{nameof(Lines)}[{i}].", read));
        return new(
            houseId, CustomerId, read.Text(Subject, nameof(Subject), "subject", needed: true, most: 200), due, lines,
            read.Text(NoTaxBecause, nameof(NoTaxBecause), "reason", most: 200), read.Text(Note, nameof(Note), "note", most: 2000));
    }

    private static InvoiceLine Read(Line line, string at, FormReading read)
    {
        if (line.Kind == LineKind.Deposit || !Enum.IsDefined(line.Kind)) read.Refuse(at + nameof(line.Kind), "Choose what the line is for.");
        return new()
        {
            Words = read.Text(line.Words, at + nameof(line.Words), "words of the line", needed: true, most: 300),
            Kind = line.Kind,
            Quantity = read.Number(line.Quantity, at + nameof(line.Quantity), "quantity", 0, 100_000) ?? 1,
            Unit = read.Text(line.Unit, at + nameof(line.Unit), "unit", most: 20) is { Length: > 0 } unit ? unit : "each",
            UnitPrice = read.Money(line.Price, at + nameof(line.Price), "price", needed: true) ?? Money.Zero,
            DiscountPercent = read.Number(line.Discount, at + nameof(line.Discount), "discount", 0, 100) ?? 0,
        };
    }
}
