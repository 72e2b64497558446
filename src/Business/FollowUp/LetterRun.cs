using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.FollowUp;

/// <summary>Letters that were printed together. Their reminders wait as printed until somebody says that they were posted.</summary>
[Holds(Truth.Fact)]
public sealed class LetterRun : Record
{
    public DateTime MadeAtUtc { get; set; }
    public string MadeBy { get; set; } = "";
    public int Letters { get; set; }
    public int PdfDocumentId { get; set; }
    public int? LabelsDocumentId { get; set; }
    public DateTime? PostedAtUtc { get; set; }
    public string PostedBy { get; set; } = "";

    /// <summary>Not to be posted: its reminders went back to the list.</summary>
    public DateTime? TakenBackAtUtc { get; set; }
}
