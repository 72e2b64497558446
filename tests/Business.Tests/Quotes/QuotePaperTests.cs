using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Tests.Documents;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace MitigationOffice.Business.Tests.Quotes;

public sealed class QuotePaperTests
{
    private static QuoteOnPaper Quote(int lines = 4, string words = SampleQuote.Suction) => SampleQuote.Make(lines, words);

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
        using var pdf = PdfDocument.Open(QuotePaper.Make(Quote() with { Sections = [new("", SampleQuote.Section)] }));
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
            "Mar 2, 2026 9:00 AM", SampleQuote.At, new DateOnly(2026, 3, 2), "192.0.2.1", new string('a', 64), new DateOnly(2026, 3, 5)));
        var copy = SignedCopy.Make(shown, acceptance, quote.Head("Signed quote"));
        using var before = PdfDocument.Open(shown);
        using var after = PdfDocument.Open(copy);
        for (var i = 1; i <= before.NumberOfPages; i++) Assert.Equal(before.GetPage(i).Text, after.GetPage(i).Text);
        var rest = string.Join(' ', after.GetPages().Skip(before.NumberOfPages).Select(p => ContentOrderTextExtractor.GetText(p)));
        Assert.Contains("Name, as typed", rest, StringComparison.Ordinal);
        Assert.Equal(2, rest.Split("Notice of cancellation").Length - 1);
        Assert.Equal(2, rest.Split("Mar 5, 2026, until midnight").Length - 1);
        using var tags = new PdfTags(copy);
        Assert.Empty(tags.Faults());
        Assert.Single(tags.Kinds, "Document");
        Assert.Single(tags.Kinds, "Part");
        Assert.Equal(4, tags.Kinds.Count(k => k == "H1"));
        Assert.True(copy.Length <= 300 * 1024, copy.Length.ToString(CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Choices_on_different_designs_have_each_its_drawing_scope_running_cost_and_additions()
    {
        var quote = Quote();
        var attic = quote.Tiers[2];
        (attic.SuctionDesignId, attic.Scope, attic.ElectricityPerYear, attic.FanLifeYears) = (7, "The pipe goes up through the attic.", Money.FromDollars(31), 8);
        quote.Revision.AddOns[0].Beside = QuoteAddOn.Bit(1) | QuoteAddOn.Bit(2);
        attic.FanReplacement = Money.FromDollars(400);
        var bytes = QuotePaper.Make(quote with { Sections = [new("“Sound” and “Sure”", SampleQuote.Section), new("“Through every winter”", SampleQuote.Section)] });
        var text = TextOf(bytes);
        string[] needed =
        [
            "How it is built in “Sound” and “Sure”", "How it is built in “Through every winter”", "“Through every winter” is built otherwise: The pipe goes up through the attic.", "$23.00", "$31.00",
            "For “Sound” and “Sure” only.", "“Through every winter”: A fan lasts 8 years", "“Sound” and “Sure”: No fan is replaced", "Further fans",
        ];
        Assert.All(needed, words => Assert.Contains(words, text, StringComparison.Ordinal));
        using var tags = new PdfTags(bytes);
        Assert.Empty(tags.Faults());
        Assert.Equal(2, tags.Kinds.Count(k => k == "Figure") - 1);
    }

    [Theory]
    [InlineData(4)]
    [InlineData(200)]
    public void Every_word_of_a_quote_is_tagged(int lines)
    {
        using var tags = new PdfTags(QuotePaper.Make(Quote(lines)));
        Assert.Empty(tags.Faults());
    }

    [Fact]
    public void Sheets_put_behind_without_their_tags_are_found()
    {
        using var document = PdfSharp.Pdf.IO.PdfReader.Open(new MemoryStream(QuotePaper.Make(Quote())), PdfSharp.Pdf.IO.PdfDocumentOpenMode.Modify);
        using var sheets = PdfSharp.Pdf.IO.PdfReader.Open(new MemoryStream(QuotePaper.Make(Quote())), PdfSharp.Pdf.IO.PdfDocumentOpenMode.Import);
        document.AddPage(sheets.Pages[0]);
        using var saved = new MemoryStream();
        document.Save(saved, closeStream: false);
        using var tags = new PdfTags(saved.ToArray());
        Assert.NotEmpty(tags.Faults());
    }

    private static string TextOf(byte[] bytes)
    {
        using var pdf = PdfDocument.Open(bytes);
        return string.Join(' ', pdf.GetPages().Select(p => ContentOrderTextExtractor.GetText(p))).ReplaceLineEndings(" ").Replace("  ", " ", StringComparison.Ordinal);
    }
}
