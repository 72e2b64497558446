using System.ComponentModel.DataAnnotations;

namespace MitigationOffice.Business.Data;

/// <summary>What every table row has: a number inside the office, and a version that a form posts back.</summary>
public abstract class Record
{
    public int Id { get; set; }

    /// <summary>Counts the saves of this row. A form that posts an older number has been overtaken.</summary>
    [ConcurrencyCheck]
    public int Version { get; set; }
}

/// <summary>Which kind of truth a table holds.</summary>
public enum Truth
{
    /// <summary>May be corrected; every correction is in the audit trail.</summary>
    Fact,

    /// <summary>Bytes or evidence; never changes once written.</summary>
    Document,

    /// <summary>Computed from facts and replaced when they change; what was sent or done stays.</summary>
    Plan,
}

[AttributeUsage(AttributeTargets.Class)]
public sealed class HoldsAttribute(Truth truth) : Attribute
{
    public Truth Truth { get; } = truth;

    /// <summary>A row is written once; a save that would change it or take it out fails.</summary>
    public bool Frozen { get; set; }
}

/// <summary>A property that the audit trail leaves out: file contents, secrets' hashes.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class NotAuditedAttribute : Attribute;
