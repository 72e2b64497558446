using System.Diagnostics;
using System.Text;
using MitigationOffice.Business.Documents;
using UglyToad.PdfPig;

namespace MitigationOffice.Business.Tests.Documents;

public sealed class PaperTests
{
    private static readonly PaperHead Head = new("Quote Q-2026-0001", "Lantern Ridge Radon", new DateTime(2026, 3, 2, 15, 0, 0, DateTimeKind.Utc))
    {
        Boxes = [new("House", "14 Larkspur Hill, Birchford, MN 55999", 2.2), new("For", "Rosalind Quill", 1.5), new("Quote", "Q-2026-0001 A", 1.2), new("Valid until", "Apr 1, 2026", 1)],
    };

    private static void Full(Paper paper)
    {
        paper.Title("Quote for a radon mitigation system");
        paper.Text("Answers the test of Oct 20–23: 9.6 pCi/L in the basement. EPA advises fixing a house at 4 pCi/L or more.", soft: true);
        paper.Table(
            [new("What is done", 2.2), new("Sound", 1), new("Sure", 1), new("Through every winter", 1.2, Right: true)],
            [new("Suction point and pipe to above the roof", "●", "●", "●"), new("Price, tax included", "$1,840.00", "$2,275.00", "$2,760.00") { Strong = true }]);
        paper.Heading("Add to any of them");
        paper.TickLine(false, "Insulated outdoor pipe instead of the cable", "Brings the risk of ice from 11 days to 3; no electricity.", "$310.00");
        paper.TickLine(true, "Second alarm on the ground floor", "The first one cannot be heard upstairs with the door shut.", "$95.00");
        paper.Rule();
        paper.Heading("What you do");
        paper.Bullets(["Look at the gauge once a month.", "Test again every two years, and after a change to the house: a long line that has to be wrapped because it does not fit."]);
        paper.Caution("Before the work", "A fan that pulls on the slab can pull combustion gas into the house. We test for it before we leave.");
        paper.Facts([("Certification number", "TEST-001"), ("Time needed", "One day")]);
        paper.SignLine("Buyer's signature and date");
    }

    [Fact]
    public void Everything_written_is_read_back_by_a_second_library_with_the_title_block_on_each_sheet()
    {
        using var pdf = PdfDocument.Open(Paper.Make(Head, Full));
        var text = TextOf(pdf);
        foreach (var words in new[] { "Quote for a radon mitigation system", "9.6 pCi/L in the basement", "Suction point and pipe to", "$2,760.00", "Insulated outdoor pipe", "Look at the gauge once a month.", "We test for it before we leave", "TEST-001", "Rosalind Quill", "1 of 1" })
            Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.Equal("Quote Q-2026-0001", pdf.Information.Title);
    }

    [Fact]
    public void The_same_contents_give_the_same_bytes_and_other_contents_do_not()
    {
        var (first, second) = (Paper.Make(Head, Full), Paper.Make(Head, Full));
        Assert.Equal(Encoding.Latin1.GetString(first), Encoding.Latin1.GetString(second));
        Assert.Contains("/CreationDate(D:20260302150000+00'00')", Encoding.Latin1.GetString(first), StringComparison.Ordinal);
        Assert.NotEqual(first, Paper.Make(Head, p => { Full(p); p.Text("One more."); }));
    }

    [Fact]
    public void Every_font_is_embedded_as_a_subset_and_the_file_stays_small()
    {
        var bytes = Paper.Make(Head, Full);
        Assert.InRange(bytes.Length, 5_000, 200 * 1024);
        using var pdf = PdfDocument.Open(bytes);
        var fonts = pdf.GetPages().SelectMany(p => p.Letters).Select(l => l.FontName).Distinct().ToList();
        Assert.NotEmpty(fonts);
        Assert.All(fonts, name => Assert.Matches("^[A-Z]{6}\\+", name));
        Assert.Equal(fonts.Count, Encoding.Latin1.GetString(bytes).Split("/FontFile2").Length - 1);
    }

    [Fact]
    public void Two_hundred_rows_flow_over_sheets_with_the_head_repeated_and_no_row_lost()
    {
        var bytes = Paper.Make(Head, p => p.Table(
            [new("What is done", 3), new("Price", 1, Right: true)],
            Enumerable.Range(1, 200).Select(i => new PaperRow($"Line number {i} of the work", $"${i}.00"))));
        using var pdf = PdfDocument.Open(bytes);
        Assert.InRange(pdf.NumberOfPages, 5, 12);
        var sheets = pdf.GetPages().Select(p => UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor.ContentOrderTextExtractor.GetText(p)).ToList();
        Assert.All(sheets, s => Assert.Contains("What is done", s, StringComparison.Ordinal));
        for (var i = 0; i < sheets.Count; i++) Assert.Contains($"{i + 1} of {sheets.Count}", sheets[i], StringComparison.Ordinal);
        for (var i = 1; i <= 200; i++) Assert.Contains($"Line number {i} of", string.Join(' ', sheets), StringComparison.Ordinal);
        Assert.True(bytes.Length <= 200 * 1024, $"{bytes.Length} bytes");
    }

    [Fact]
    public void A_note_of_five_thousand_characters_goes_on_at_the_next_sheet_whole_in_text_cell_and_caution()
    {
        var note = string.Join(' ', Enumerable.Range(0, 1000).Select(i => $"w{i:0000}"));
        using var pdf = PdfDocument.Open(Paper.Make(Head, p =>
        {
            p.Text(note);
            p.Table([new("Note", 1), new("Other", 1)], [new PaperRow(note.Replace('w', 'c'), "x")]);
            p.Caution("Mind", note.Replace('w', 'k'));
        }));
        var text = TextOf(pdf);
        for (var i = 0; i < 1000; i++)
            foreach (var letter in "wck") Assert.Contains($"{letter}{i:0000}", text, StringComparison.Ordinal);
        Assert.All(pdf.GetPages().SelectMany(p => p.Letters), l => Assert.InRange(l.BoundingBox.Right, 20, 592));
    }

    [Fact]
    public void Text_stays_above_the_title_block_and_inside_the_frame()
    {
        var words = new string('W', 400) + " " + string.Join(' ', Enumerable.Repeat("word", 900));
        using var pdf = PdfDocument.Open(Paper.Make(Head with { Boxes = [new("House", new string('M', 300), 1)] }, p => p.Text(words)));
        foreach (var page in pdf.GetPages())
            Assert.All(page.Letters, l => Assert.InRange(l.BoundingBox.Right, 24, 588.5));
        Assert.True(pdf.NumberOfPages > 1);
    }

    [Theory]
    [InlineData("שלום עולם")]
    [InlineData("مرحبا بالعالم")]
    [InlineData("Rosalind 👩‍👩‍👧 Quill 🏠")]
    [InlineData("\u202Eevil\u202C")]
    [InlineData("a\ud800b\0c\u0007")]
    [InlineData("日本語の住所")]
    public void Characters_the_type_does_not_have_never_break_a_paper(string words)
    {
        using var pdf = PdfDocument.Open(Paper.Make(Head, p => p.Text($"before {words} after")));
        var text = TextOf(pdf);
        Assert.Contains("before", text, StringComparison.Ordinal);
        Assert.Contains("after", text, StringComparison.Ordinal);
        Assert.Equal(words.Any(c => c > 0x2FF && c is not ('\u202E' or '\u202C')), text.Contains("hollow square", StringComparison.Ordinal));
    }

    [Fact]
    public void Letters_of_other_European_languages_and_signs_of_the_trade_are_printed_as_they_are()
    {
        const string words = "Zażółć gęślą jaźń · Ångström · 18 °F · ≥ 4 pCi/L · 100 Bq/m³ · −3 Pa · ½ in · “quoted” · Ж";
        using var pdf = PdfDocument.Open(Paper.Make(Head, p => p.Text(words)));
        Assert.Contains(words, TextOf(pdf), StringComparison.Ordinal);
    }

    [Fact]
    public void Tags_say_what_is_a_heading_a_list_and_a_table()
    {
        var raw = Encoding.Latin1.GetString(Paper.Make(Head, Full));
        Assert.Contains("/MarkInfo", raw, StringComparison.Ordinal);
        Assert.Contains("/Lang(en-US)", raw, StringComparison.Ordinal);
        foreach (var tag in new[] { "Document", "H1", "H2", "P", "Table", "TR", "TH", "TD", "L", "LI", "LBody", "Figure" })
            Assert.Matches($@"/S\s*/{tag}\b", raw);
    }

    [Fact]
    public void A_label_of_another_size_has_no_frame_or_title_block_unless_asked()
    {
        var head = new PaperHead("Label", "Lantern Ridge Radon", Head.MadeAtUtc) { Size = PaperSize.Inches(4, 3), Frame = false, TextSize = 8 };
        using var pdf = PdfDocument.Open(Paper.Make(head, p => p.Title("Radon mitigation system")));
        Assert.Equal((288, 216), (pdf.GetPage(1).Width, pdf.GetPage(1).Height));
        Assert.DoesNotContain("Sheet", TextOf(pdf), StringComparison.Ordinal);
    }

    [Fact]
    public void Papers_are_made_side_by_side_without_harm()
    {
        var made = Enumerable.Range(0, 64).AsParallel().WithDegreeOfParallelism(8).Select(_ => Paper.Make(Head, Full)).ToList();
        Assert.All(made, bytes => Assert.Equal(made[0], bytes));
    }

    [Fact]
    public void A_paper_takes_less_than_300_ms_once_the_type_is_read()
    {
        Paper.Make(Head, Full);
        var times = Enumerable.Range(0, 20).Select(_ =>
        {
            var watch = Stopwatch.StartNew();
            Paper.Make(Head, Full);
            return watch.ElapsedMilliseconds;
        }).Order().ToList();
        Assert.True(times[10] < 300, $"median {times[10]} ms");
    }

    private static string TextOf(PdfDocument pdf) =>
        string.Join(' ', pdf.GetPages().Select(p => UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor.ContentOrderTextExtractor.GetText(p)))
            .ReplaceLineEndings(" ").Replace("  ", " ", StringComparison.Ordinal);
}
