using System.Diagnostics;
using System.Globalization;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Tests.Quotes;
using PdfSharp.Pdf.IO;

namespace MitigationOffice.Benchmarks.Papers;

/// <summary>A quote's paper of three choices of twenty lines with its drawing, beside as many sheets that hold one line each: what is left is the
/// price of what a quote says. Held against the limits of 300 ms and 200 KB; the median of many, on this machine.</summary>
internal static class QuotePaperRatio
{
    private const double MostMs = 300, MostKb = 200;
    private const int Rounds = 100;

    internal static int Print()
    {
        var quote = SampleQuote.Make(20) with { Sections = [new("", SampleQuote.Section)] };
        var bytes = QuotePaper.Make(quote);
        using var read = PdfReader.Open(new MemoryStream(bytes), PdfDocumentOpenMode.Import);
        var sheets = read.PageCount;
        var (ours, bare) = (Median(() => QuotePaper.Make(quote)), Median(() => Paper.Make(quote.Head("Quote"), paper => Bare(paper, sheets))));
        var kb = bytes.Length / 1024.0;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"a quote's paper: {ours:0.0} ms of {MostMs:0}, {kb:0} KB of {MostKb:0}; {ours / bare:0.0} times {sheets} sheets of one line each ({bare:0.0} ms)"));
        return ours <= MostMs && kb <= MostKb ? 0 : 1;
    }

    private static void Bare(Paper paper, int sheets)
    {
        for (var i = 0; i < sheets; i++)
        {
            if (i > 0) paper.NewSheet();
            paper.Text("One line.");
        }
    }

    private static double Median(Func<byte[]> make)
    {
        for (var i = 0; i < 10; i++) make();
        var times = Enumerable.Range(0, Rounds).Select(_ =>
        {
            var start = Stopwatch.GetTimestamp();
            make();
            return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }).Order().ToList();
        return times[Rounds / 2];
    }
}
