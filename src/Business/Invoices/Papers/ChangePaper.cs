using System.Globalization;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Invoices.Papers;

/// <summary>Everything a change order's paper says.</summary>
public sealed record ChangeOnPaper(ChangeOrder Order, Scope Scope, string Quote, DateTime SignedAtUtc, House House, Customer Customer, CompanyProfile Company)
{
    public string Title => $"Change order {Order.Number}";
    public TimeZoneInfo Zone => HouseTime.Zone(House.TimeZone, Company.TimeZone);
    public string DifferenceWords => Words(Order.Difference);

    public PaperHead Head(string title) => new($"{title} {Order.Number}", Company.Name, Order.SentAtUtc ?? Order.CreatedAtUtc)
    {
        Boxes =
        [
            new("House", House.AddressLine, 2.2), new("For", Customer.Name, 1.5), new("Change order", Order.Number, 1.35),
            new("Date", HouseTime.Show(HouseTime.DayOf(Order.SentAtUtc ?? Order.CreatedAtUtc, Zone)), 0.95), new("Changes quote", Quote, 1.15),
        ],
    };

    /// <summary>With a plus or a minus sign before it.</summary>
    public static string Words(Money difference) => difference > Money.Zero ? $"+{difference}" : $"{difference}";
}

/// <summary>A change order, and the sheet of its signature, as papers. Pure: the same record gives the same bytes.</summary>
public static class ChangePaper
{
    public static byte[] Make(ChangeOnPaper change) => Paper.Make(change.Head("Change order"), p => Write(p, change));

    public static byte[] MakeSignature(ChangeOnPaper change, ChangeSignature s) =>
        Paper.Make(change.Head("Signature of change order") with { MadeAtUtc = s.AtUtc }, p => Sign(p, change, s));

    private static void Write(Paper p, ChangeOnPaper c)
    {
        p.Title(c.Title);
        p.Text($"Changes the work agreed in quote {c.Quote}, signed on {HouseTime.Show(HouseTime.DayOf(c.SignedAtUtc, c.Zone))}.", soft: true);
        p.Heading("Why");
        p.Text(c.Order.Reason);
        p.Heading("What changes");
        p.Table([new("Line", 3.4), new("Before", 1, Right: true), new("After", 1, Right: true), new("Difference", 1.1, Right: true)], [.. c.Order.Lines.OrderBy(l => l.Position).Select(Row), .. Sums(c)]);
        if (c.Order.TimeEffect.Length > 0) p.Facts([("Effect on the days", c.Order.TimeEffect)]);
        p.Note($"New price, tax included: {c.Order.NewTotal}", $"The price before this change is {c.Order.OldTotal}; the difference is {c.DifferenceWords}. The deposit stays as it was; the difference comes with the last invoice.");
        p.Text("Everything else in the quote stays as it was signed. Without a signature this change is not made, and the work stays as it was agreed.");
        p.Heading("Contractor");
        p.Facts(QuotePaper.SellerOf(c.Company));
    }

    private static PaperRow Row(ChangeLine l) => new(Words(l), $"{l.WasAmount}", $"{l.Amount}", ChangeOnPaper.Words(l.Difference));

    /// <summary>What a line does, in words.</summary>
    public static string Words(ChangeLine l, bool withPrice = true) => l.Kind switch
    {
        ChangeKind.TakenOut => $"Taken out: {l.WasWords}",
        ChangeKind.Changed when l.WasWords == l.Words => $"Changed: {l.Words}, now{Count(l, withPrice, always: true)}",
        ChangeKind.Changed => $"Changed: {l.WasWords}; now {l.Words}{Count(l, withPrice)}",
        _ => $"Added: {l.Words}{Count(l, withPrice)}",
    };

    private static string Count(ChangeLine l, bool withPrice, bool always = false) => l.Quantity == 1 && l.Unit == "each" && !always
        ? ""
        : $"{(always ? "" : ",")} {TypedNumbers.Plain(l.Quantity)} {l.Unit}{(withPrice ? $" at {l.UnitPrice}" : "")}";

    private static IEnumerable<PaperRow> Sums(ChangeOnPaper c)
    {
        var before = c.Scope.After([]);
        yield return new PaperRow("Work before tax", $"{before.Net}", $"{c.Order.Net}", ChangeOnPaper.Words(c.Order.Net - before.Net));
        yield return new PaperRow($"Sales tax, {TypedNumbers.Plain(c.Scope.TaxPercent)} % of what is taxed", $"{before.Tax}", $"{c.Order.Tax}", ChangeOnPaper.Words(c.Order.Tax - before.Tax));
        yield return new PaperRow("Price, tax included", $"{c.Order.OldTotal}", $"{c.Order.NewTotal}", c.DifferenceWords) { Strong = true, Band = true };
    }

    private static void Sign(Paper p, ChangeOnPaper c, ChangeSignature s)
    {
        p.Title("Signature");
        p.Text($"{s.TypedName} signed change order {s.Number} for {c.House.AddressLine}.");
        p.Facts([("Price before", $"{s.OldTotal}"), ("Difference", c.DifferenceWords), ("New price, tax included", $"{s.NewTotal}")]);
        p.Heading("Signed");
        p.Facts(
        [
            ("Name, as typed", s.TypedName),
            ("When", $"{HouseTime.Show(s.AtUtc, c.Zone)} ({c.Zone.Id}; {s.AtUtc.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)} UTC)"),
            ("From the address", s.IpAddress), ("With the browser", s.UserAgent),
            ("How", s.HandedBy.Length > 0 ? $"On a tablet handed over by {s.HandedBy}" : "By the private link, sent by mail"),
            ("Agreed to", s.ConsentText), ("And to", s.IntentText), ("The change order's SHA-256", s.PdfSha256),
        ]);
    }
}
