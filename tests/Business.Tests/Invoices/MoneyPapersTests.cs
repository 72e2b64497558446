using System.Diagnostics;
using System.Text;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Invoices.Papers;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Shop;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;
using PigDocument = UglyToad.PdfPig.PdfDocument;

namespace MitigationOffice.Business.Tests.Invoices;

/// <summary>The papers after the signature, read back: words, tags, fonts, size, and the same bytes twice. With OFFICE_PICTURES=1
/// and pdftoppm at hand their first sheets are drawn to docs/pictures.</summary>
public sealed class MoneyPapersTests
{
    private static readonly DateTime At = new(2026, 3, 3, 16, 5, 0, DateTimeKind.Utc);
    private static readonly DateOnly Day = new(2026, 3, 3);
    private static readonly House House = new() { Street = "14 Larkspur Hill", City = "Birchford", State = "MN", Zip = "55999", TimeZone = "America/Chicago" };
    private static readonly Customer Customer = new() { Name = "Rosalind Quill", MailingAddress = "PO Box 12\nBirchford, MN 55999" };

    private static readonly CompanyProfile Company = new()
    {
        Name = "Lantern Ridge Radon", Street = "8 Quarry Lane", City = "Birchford", State = "MN", Zip = "55999", Phone = "555-0100", Email = "office@lanternridge.example", CertificationNumber = "TEST-001",
    };

    public static TheoryData<string, string[]> Papers => new()
    {
        { "paper-change-order", ["Change order J-2026-0042-1", "Water stands under the slab", "Added: Sealed lid over the pit", "Taken out: Second alarm", "$2,101.53", "+$117.56", "$2,219.09", "Half a day more", "TEST-001"] },
        { "paper-change-signature", ["Rosalind Quill signed change order J-2026-0042-1", "On a tablet handed over by Cleo Marsh", "192.0.2.7", "abc123"] },
        { "paper-cancellation", ["I hereby cancel this transaction.", "Rosalind Q.", "Mar 5, 2026", "Mar 17, 2026", "within three business days", "8 Quarry Lane"] },
        { "paper-invoice", ["Invoice I-2026-0007", "To pay: $2,137.50", "Mar 24, 2026", "PO Box 12", "8 Quarry Lane"] },
        { "paper-statement", ["Statement", "PO Box 12", "8 Quarry Lane", "555-0100", "TEST-001", "1–30 days past due", "Owed: $1,500.00", "$600.00 of it is past due"] },
    };

    [Theory]
    [MemberData(nameof(Papers))]
    public void It_says_what_it_must_in_tagged_embedded_type(string name, string[] words)
    {
        var bytes = Make(name);
        Assert.Equal(bytes, Make(name));
        Assert.True(bytes.Length < 200_000, $"{bytes.Length} bytes");
        using (var pdf = PigDocument.Open(bytes))
        {
            var text = string.Join(' ', pdf.GetPages().Select(p => ContentOrderTextExtractor.GetText(p))).ReplaceLineEndings(" ");
            Assert.All(words, w => Assert.Contains(w.Replace(" ", "", StringComparison.Ordinal), text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal));
            var fonts = pdf.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName).Distinct().ToList();
            Assert.Equal(fonts.Count, Encoding.Latin1.GetString(bytes).Split("/FontFile2").Length - 1);
        }

        using var stream = new MemoryStream(bytes);
        using var read = PdfReader.Open(stream, PdfDocumentOpenMode.Import);
        var root = read.Internals.Catalog.Elements;
        Assert.NotNull(root.GetDictionary("/StructTreeRoot"));
        Assert.Equal("en-US", root.GetString("/Lang"));
        var raw = Encoding.Latin1.GetString(bytes);
        Assert.All(name is "paper-change-order" or "paper-invoice" or "paper-statement" ? ["H1", "P", "Table", "TR", "TH", "TD"] : new[] { "H1", "H2", "P" }, tag => Assert.Matches($@"/S\s*/{tag}\b", raw));
        Draw(name, bytes);
    }

    private static byte[] Make(string name) => name switch
    {
        "paper-change-order" => ChangePaper.Make(Change()),
        "paper-change-signature" => ChangePaper.MakeSignature(Change(), new ChangeSignature
        {
            Number = "J-2026-0042-1", AcceptanceHash = "", LinesSha256 = "", OldTotal = Money.FromDollars(2101.53m), NewTotal = Money.FromDollars(2219.09m), TypedName = "Rosalind Quill", ConsentText = AcceptQuote.ConsentText,
            IntentText = SignChange.IntentText, AtUtc = At, TimeZone = "America/Chicago", IpAddress = "192.0.2.7", UserAgent = "a tablet", HandedBy = "Cleo Marsh", PdfSha256 = "abc123", SignedSha256 = "", PreviousHash = "", Hash = "",
        }),
        "paper-cancellation" => CancelNoticePaper.Make(Notice()),
        "paper-invoice" => InvoicePaper.Make(new InvoiceOnPaper(Invoice(), KeepPaper.To(Customer, House.AddressLine), House.AddressLine, Customer.Name, Company, null)),
        _ => StatementPaper.Make(Account(), KeepPaper.To(Customer, House.AddressLine), House.AddressLine, Company, Day, At),
    };

    private static ChangeOnPaper Change()
    {
        ScopeLine[] lines = [new("quote:1", "Suction point, cored and cleaned out", 1, "each", Money.FromDollars(2000), Money.FromDollars(2000), false, null), new("addition:4", "Second alarm on the ground floor", 1, "each", Money.FromDollars(95), Money.FromDollars(95), true, null)];
        var order = new ChangeOrder
        {
            Number = "J-2026-0042-1", CreatedBy = "Cleo Marsh", CreatedAtUtc = At, SentAtUtc = At, Reason = "Water stands under the slab; the pit needs a sealed lid with a water alarm.", TimeEffect = "Half a day more.",
            OldTotal = Money.FromDollars(2101.53m), Net = Money.FromDollars(2205), Tax = Money.FromDollars(14.09m), NewTotal = Money.FromDollars(2219.09m),
            Lines =
            [
                new() { Position = 1, Kind = ChangeKind.Added, Words = "Sealed lid over the pit, with a water alarm", UnitPrice = Money.FromDollars(205), Priced = true, Taxable = true },
                new() { Position = 2, Kind = ChangeKind.TakenOut, Of = "addition:4", WasWords = "Second alarm on the ground floor", WasAmount = Money.FromDollars(95), Priced = true, Taxable = true },
            ],
        };
        return new(order, new Scope(1, "", 6.875m, lines, [], Money.FromDollars(2101.53m), []), "Q-2026-0001 A", At.AddDays(-1), House, Customer, Company);
    }

    private static NoticeOnPaper Notice()
    {
        var revision = new QuoteRevision { Letter = "A", ValidUntil = new DateOnly(2026, 4, 1) };
        QuoteTexts.Fill(revision, Company);
        var signed = new Acceptance
        {
            TypedName = "Rosalind Quill", ConsentText = "", IntentText = "", AtUtc = At.AddDays(-1), TimeZone = "America/Chicago", PdfSha256 = "", SignedSha256 = "", CancelBy = new DateOnly(2026, 3, 5), PreviousHash = "",
            Hash = new string('a', 64),
        };
        return new(signed, new(revision, new Quote { Number = "Q-2026-0001" }, House, Customer, Company), 1, "Rosalind Q.", CancelByLink.Statement, At, HouseTime.Zone("America/Chicago"), Day, new DateOnly(2026, 3, 17), "192.0.2.7", "a phone");
    }

    private static Invoice Invoice() => new()
    {
        Number = "I-2026-0007", Kind = InvoiceKind.Free, Subject = "A new fan, fitted", IssuedOn = Day, DueOn = Day.AddDays(21), IssuedAtUtc = At, IssuedBy = "Bram Oster", PdfSha256 = "", PreviousHash = "", Hash = "",
        Net = Money.FromDollars(2000), Tax = Money.FromDollars(137.50m), Total = Money.FromDollars(2137.50m),
        Lines = [new() { Position = 1, Words = "Fan and fittings", Kind = LineKind.Material, UnitPrice = Money.FromDollars(2000), Amount = Money.FromDollars(2000) }],
        Taxes = [new() { Position = 1, Name = "Sales tax", Percent = 6.875m, Kinds = "Material", Taxed = Money.FromDollars(2000), Amount = Money.FromDollars(137.50m) }],
    };

    private static HouseAccount Account()
    {
        StatementLine[] lines =
        [
            new(new(2026, 1, 20), At, "Invoice I-2026-0002: Deposit, quote Q-2026-0001 A", Money.FromDollars(900), null, Money.FromDollars(900), 2, null, false, new(2026, 1, 20)),
            new(new(2026, 1, 24), At, "Payment by check 1042", null, Money.FromDollars(300), Money.FromDollars(600), null, 1, true, null),
            new(new(2026, 3, 1), At, "Invoice I-2026-0006: A visit", Money.FromDollars(900), null, Money.FromDollars(1500), 6, null, false, new(2026, 3, 20)),
        ];
        return new(1, Customer.Name, true, true, Money.FromDollars(300), Ageing.Of([(new(2026, 1, 20), Money.FromDollars(900)), (new(2026, 3, 20), Money.FromDollars(900))], Money.FromDollars(300), Day), lines);
    }

    private static void Draw(string name, byte[] bytes)
    {
        if (Environment.GetEnvironmentVariable("OFFICE_PICTURES") is not { Length: > 0 }) return;
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "MitigationOffice.sln"))) folder = folder.Parent!;
        var at = Path.Combine(Path.GetTempPath(), name + ".pdf");
        File.WriteAllBytes(at, bytes);
        using var draw = Process.Start("pdftoppm", ["-r", "60", "-png", "-f", "1", "-l", "1", "-singlefile", at, Path.Combine(folder.FullName, "docs", "pictures", name)])!;
        draw.WaitForExit();
        File.Delete(at);
    }
}
