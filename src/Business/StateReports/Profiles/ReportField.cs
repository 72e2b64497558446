namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>Where a value is entered.</summary>
public enum EnteredAt
{
    Company,
    Licences,
    Report,
    Customer,
    Inquiry,
    Job,
    AsBuilt,
    Proof,
}

public enum FieldKind
{
    Text,
    Day,
    Number,
}

/// <summary>What a value belongs to; only a system's own values can be amended.</summary>
public enum FieldOf
{
    Run,
    Row,
    System,
}

/// <summary>A value the office can put into a report.</summary>
/// <param name="Needed">Required in the general layout: empty, it is a gap to fill before freezing.</param>
/// <param name="Free">Typed freely: must not begin like a formula, for the file goes into spreadsheets as it is.</param>
/// <param name="Amends">A later change is an amendment, unless a profile says otherwise.</param>
public sealed record ReportField(string Name, string Words, EnteredAt At, FieldOf Of = FieldOf.System, FieldKind Kind = FieldKind.Text, bool Needed = false, bool Free = false, bool Amends = true)
{
    /// <summary>Digits after the point, as a report writes the number.</summary>
    public int Decimals { get; init; }
}
