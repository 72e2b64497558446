using System.Globalization;
using System.Text;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Shop;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace MitigationOffice.Business.Tests.Quotes;

public sealed class QuotePaperTests
{
    private static readonly DateTime At = new(2026, 3, 2, 15, 0, 0, DateTimeKind.Utc);

    private static readonly CompanyProfile Company = new()
    {
        Name = "Lantern Ridge Radon",
        Street = "8 Quarry Lane",
        City = "Birchford",
        State = "MN",
        Zip = "55999",
        Phone = "555-0100",
        Email = "office@lanternridge.example",
        CertificationNumber = "TEST-001",
    };

    private static QuoteOnPaper Quote(int lines = 4, string words = "Suction point and pipe to above the roof")
    {
        var revision = new QuoteRevision
        {
            Letter = "A",
            Answers = "The radon test of Oct 20, 2025 (basement): 9.6 pCi/L.",
            ValidUntil = new DateOnly(2026, 4, 1),
            TaxPercent = 6.875m,
            DepositPercent = 30,
            Scope = "A pit, a pipe, a fan.",
            ElectricityPerYear = Money.FromDollars(23),
            RecommendedTier = 2,
            WhyRecommended = "Moist soil gas freezes in the outdoor pipe.",
        };
        QuoteTexts.Fill(revision, Company);
        foreach (var (name, position) in new[] { ("Sound", 1), ("Sure", 2), ("Through every winter", 3) })
            revision.Tiers.Add(new QuoteTier
            {
                Name = name,
                Position = position,
                Lines = [.. Enumerable.Range(1, lines + position - 1).Select(i => new QuoteLine { Position = i, Words = i == 1 ? words : $"Part number {i}", Quantity = i == 2 ? 24 : 1, Unit = i == 2 ? "ft" : "each", UnitPrice = new Money(12_34 * i), Taxable = i % 2 == 0, PriceItemId = i })],
            });
        revision.AddOns.Add(new QuoteAddOn { Position = 1, Words = "Second alarm on the ground floor", Reason = "The first cannot be heard upstairs.", Price = Money.FromDollars(95), Taxable = true });
        return new(revision, "Q-2026-0001", "14 Larkspur Hill, Birchford, MN 55999", "Rosalind Quill", Company, At, new DateOnly(2026, 3, 2));
    }

    [Fact]
    public void The_paper_holds_what_must_be_in_writing_before_the_work_starts()
    {
        var quote = Quote();
        var text = TextOf(QuotePaper.Make(quote));
        var sums = quote.Tiers.Select(t => PriceQuote.Of(quote.Revision, t, []));
        string[] needed =
        [
            "9.6 pCi/L", "TEST-001", "A pit, a pipe, a fan.", "One working day", "fumes and burn easily", "follows the radon mitigation standard", "Leave the fan on all year",
            "Electricity for the fan, a year (estimate)", "$23.00", "We adjust or extend", "14 Larkspur Hill", "Rosalind Quill", "Apr 1, 2026", "Second alarm", "$95.00 + tax",
            "may cancel this transaction at any time prior to midnight of the third business day", .. sums.Select(s => s.Total.ToString()),
        ];
        Assert.All(needed, words => Assert.Contains(words, text, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Costs_never_reach_the_paper()
    {
        var quote = Quote();
        quote.Revision.Tiers[0].Lines[0].UnitCost = Money.FromDollars(777.77m);
        Assert.DoesNotContain("777.77", TextOf(QuotePaper.Make(quote)), StringComparison.Ordinal);
    }

    [Fact]
    public void Two_hundred_lines_and_hostile_words_make_a_paper_of_less_than_200_KB()
    {
        var bytes = QuotePaper.Make(Quote(200, "\"><svg onload=x> שלום 🏠 " + new string('x', 300)));
        Assert.True(bytes.Length <= 200 * 1024, $"{bytes.Length} bytes");
        var text = TextOf(bytes);
        Assert.Contains("Part number 200", text, StringComparison.Ordinal);
        Assert.Contains("\"><svg onload=x>", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_section_through_the_house_stands_on_the_first_sheet()
    {
        var picture = HouseSection.Draw(new HouseFacts { Name = "14 Larkspur Hill", Basement = true, Route = [new(RoutePlace.Outdoors, 5, "4 in")], FanPlace = RoutePlace.Outdoors, FanWords = "Sparrow 18" });
        using var pdf = PdfDocument.Open(QuotePaper.Make(Quote() with { Section = picture }));
        Assert.Contains("Sparrow 18", ContentOrderTextExtractor.GetText(pdf.GetPage(1)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_signed_copy_is_the_quote_untouched_with_the_acceptance_and_two_cancellation_forms_behind_it()
    {
        var quote = Quote();
        var shown = QuotePaper.Make(quote);
        var tier = quote.Tiers[1];
        var acceptance = AcceptancePaper.Make(new AcceptanceOnPaper(
            quote, tier, [quote.Revision.AddOns[0]], [], PriceQuote.Of(quote.Revision, tier, quote.Revision.AddOns), "Rosalind Quill", AcceptQuote.ConsentText, AcceptQuote.IntentText,
            "Mar 2, 2026 9:00 AM", At, new DateOnly(2026, 3, 2), "192.0.2.1", new string('a', 64), new DateOnly(2026, 3, 5)));
        var copy = SignedCopy.Make(shown, acceptance, quote.Head("Signed quote"));
        using var before = PdfDocument.Open(shown);
        using var after = PdfDocument.Open(copy);
        for (var i = 1; i <= before.NumberOfPages; i++) Assert.Equal(before.GetPage(i).Text, after.GetPage(i).Text);
        var rest = string.Join(' ', after.GetPages().Skip(before.NumberOfPages).Select(p => ContentOrderTextExtractor.GetText(p)));
        Assert.Contains("Name, as typed", rest, StringComparison.Ordinal);
        Assert.Equal(2, rest.Split("Notice of cancellation").Length - 1);
        Assert.Equal(2, rest.Split("Mar 5, 2026, until midnight").Length - 1);
        Assert.Contains("/StructTreeRoot", Encoding.Latin1.GetString(copy), StringComparison.Ordinal);
        Assert.True(copy.Length <= 300 * 1024, copy.Length.ToString(CultureInfo.InvariantCulture));
    }

    private static string TextOf(byte[] bytes)
    {
        using var pdf = PdfDocument.Open(bytes);
        return string.Join(' ', pdf.GetPages().Select(p => ContentOrderTextExtractor.GetText(p))).ReplaceLineEndings(" ").Replace("  ", " ", StringComparison.Ordinal);
    }
}
