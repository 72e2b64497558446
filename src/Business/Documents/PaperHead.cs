namespace MitigationOffice.Business.Documents;

/// <summary>A sheet's size and the room around what stands on it, in points (1/72 inch).</summary>
/// <param name="Edge">From the sheet's edge to the frame.</param>
/// <param name="Inset">From the frame to the text.</param>
public sealed record PaperSize(double Width, double Height, double Edge, double Inset)
{
    public static readonly PaperSize Letter = new(612, 792, 24, 24);

    /// <summary>A label or tag of the given size in inches.</summary>
    public static PaperSize Inches(double width, double height, double edge = 0.1, double inset = 0.08) =>
        new(width * 72, height * 72, edge * 72, inset * 72);
}

/// <summary>One box of the title block.</summary>
/// <param name="Share">Its part of the width, beside the others' shares.</param>
public sealed record TitleBox(string Label, string Words, double Share);

/// <summary>What a paper is: its title and date for the file, its size, and the boxes of the title block, which is left
/// out where there are none. "Sheet n of m" is added as the last box.</summary>
public sealed record PaperHead(string Title, string Author, DateTime MadeAtUtc)
{
    public PaperSize Size { get; init; } = PaperSize.Letter;
    public bool Frame { get; init; } = true;
    public IReadOnlyList<TitleBox> Boxes { get; init; } = [];

    /// <summary>Size of body text, points.</summary>
    public double TextSize { get; init; } = 10.5;
}
