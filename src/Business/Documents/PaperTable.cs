namespace MitigationOffice.Business.Documents;

/// <param name="Share">Its part of the width, beside the others' shares.</param>
/// <param name="Right">Numbers stand at the right.</param>
public sealed record PaperColumn(string Head, double Share, bool Right = false);

/// <summary>One row, a text for each column.</summary>
public sealed record PaperRow(params string[] Cells)
{
    public bool Strong { get; init; }
    public bool Band { get; init; }
}
