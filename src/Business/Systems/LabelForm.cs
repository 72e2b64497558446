using MitigationOffice.Business.Documents;

namespace MitigationOffice.Business.Systems;

public enum LabelSize
{
    FourBySix,
    FourByFour,
    LetterSheet,
    PipeMark,
}

/// <summary>A size in which the label is printed.</summary>
/// <param name="Whole">All that a label must say; the pipe mark is only for the other floors on which the pipe shows.</param>
/// <param name="CodeInches">Side of the QR code.</param>
public sealed record LabelForm(LabelSize Size, string Words, double WidthInches, double HeightInches, double TextSize, double CodeInches, bool Whole)
{
    public static readonly IReadOnlyList<LabelForm> All =
    [
        new(LabelSize.FourBySix, "4 × 6 in, beside the gauge", 4, 6, 11, 1.1, true),
        new(LabelSize.FourByFour, "4 × 4 in, beside the gauge", 4, 4, 7.2, 0.85, true),
        new(LabelSize.LetterSheet, "Letter sheet, large type", 8.5, 11, 19, 1.8, true),
        new(LabelSize.PipeMark, "3.5 × 2 in, for the pipe on each floor", 3.5, 2, 9, 0.8, false),
    ];

    public static LabelForm Of(LabelSize size) => All.First(f => f.Size == size);

    public PaperSize Paper => PaperSize.Inches(WidthInches, HeightInches, edge: Size == LabelSize.LetterSheet ? 0.35 : 0.1, inset: Size == LabelSize.LetterSheet ? 0.3 : 0.08);
}
