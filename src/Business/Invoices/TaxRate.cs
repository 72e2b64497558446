using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Invoices;

/// <summary>What a line of an invoice is for; decides which taxes are due on it.</summary>
public enum LineKind
{
    Material,
    Labour,
    Subcontract,
    Permit,
    Other,

    /// <summary>A deposit asked for, or one taken off again. Never taxed: the work is, once, when it is billed.</summary>
    Deposit,
}

/// <summary>A tax, what it is charged on, and from when to when. Entered by the office: which rates are right is for its
/// bookkeeper to say.</summary>
[Holds(Truth.Fact)]
public sealed class TaxRate : Record
{
    public required string Name { get; set; }
    public decimal Percent { get; set; }

    /// <summary>Names of <see cref="LineKind"/>, comma between.</summary>
    public string Kinds { get; set; } = "";
    public DateOnly ValidFrom { get; set; }

    /// <summary>The last day on which it is charged; empty: still is.</summary>
    public DateOnly? ValidTo { get; set; }

    public bool Taxes(LineKind kind) => Kinds.Split(',').Contains(kind.ToString(), StringComparer.Ordinal);

    public bool HoldsOn(DateOnly day) => ValidFrom <= day && (ValidTo is not { } last || day <= last);

    public static string Join(IEnumerable<LineKind> kinds) => string.Join(',', kinds.Distinct().Order());
}
