namespace MitigationOffice.Business.StateReports.Profiles;

/// <summary>What makes a system one to report.</summary>
public enum CountedEvent
{
    /// <summary>The fan was switched on to stay.</summary>
    Activation,

    /// <summary>The day the work was complete.</summary>
    Completion,

    /// <summary>A fan was put into a system that was running before.</summary>
    Alteration,

    /// <summary>The first valid test after the work.</summary>
    Test,
}

public enum FileKind
{
    Csv,
    Xlsx,
    Pdf,
}

/// <summary>How a state wants its reports, as data. The office's own can be added without a line of the program.</summary>
public sealed record ReportProfile
{
    /// <summary>Its name in addresses and on the command line: small letters, digits and dashes.</summary>
    public required string Code { get; init; }
    public required string Name { get; init; }
    public string Jurisdiction { get; init; } = "";

    /// <summary>Two letters: only houses there are reported. Empty: every house.</summary>
    public string State { get; init; } = "";
    public string Citation { get; init; } = "";

    /// <summary>The day the rule was read.</summary>
    public DateOnly? Read { get; init; }

    /// <summary>What is not known about the rule, a sentence each.</summary>
    public IReadOnlyList<string> NotKnown { get; init; } = [];
    public PeriodKind Period { get; init; } = PeriodKind.Month;
    public DeadlineRule Deadline { get; init; } = DeadlineRule.None;
    public IReadOnlyList<CountedEvent> Events { get; init; } = [CountedEvent.Activation];
    public bool NilReport { get; init; } = true;
    public FeeRule Fee { get; init; } = new(0, DeadlineRule.None, "");
    public KeepRule Retention { get; init; } = new(0, false, false, "");
    public PrivacyRule Privacy { get; init; } = new(false, false, "", "");
    public IReadOnlyList<FileKind> Files { get; init; } = [FileKind.Csv, FileKind.Xlsx, FileKind.Pdf];
    public IReadOnlyList<ProfileField> Fields { get; init; } = [];

    public bool Reports => Period != PeriodKind.None;
    public bool IsFor(string state) => State.Length == 0 || State.Equals(state.Trim(), StringComparison.OrdinalIgnoreCase);
}

/// <param name="Name">The column's head in the files.</param>
/// <param name="From">The office's own name of the value; see <see cref="ReportFields"/>.</param>
/// <param name="Format">How a day or a number is written; empty: as the office keeps it.</param>
/// <param name="Amends">Whether a later change of it is reported as an amendment.</param>
/// <param name="Most">Longest text the state takes; 0: any.</param>
/// <param name="Map">The state's own words or codes for the office's.</param>
/// <param name="Value">Always this text; From is empty then.</param>
public sealed record ProfileField(string Name, string From, string Format, bool Required, bool Amends, int Most, IReadOnlyDictionary<string, string> Map, string Value)
{
    /// <summary>Its place among <see cref="ReportFields.All"/>; −1 where the text is always the same.</summary>
    public int Place { get; } = ReportFields.PlaceOf(From);

    /// <summary>What the office knows of the value; null where the text is always the same.</summary>
    public ReportField? Known => Place < 0 ? null : ReportFields.All[Place];
}

/// <param name="Cents">For each system reported; 0 where there is none or it is not known.</param>
public sealed record FeeRule(long Cents, DeadlineRule Deadline, string Citation);

/// <param name="Years">After the work was complete; 0: the rule is not known.</param>
/// <param name="ForEver">Until the state allows them to be destroyed.</param>
public sealed record KeepRule(int Years, bool OrLongerWarranty, bool ForEver, string Citation)
{
    public bool Known => Years > 0 || ForEver;
}

/// <param name="AddressesPrivate">Addresses and owners may be given to nobody but the owner and the state.</param>
/// <param name="OwnerOnly">In the office, too, only the owner of the company opens the report.</param>
public sealed record PrivacyRule(bool AddressesPrivate, bool OwnerOnly, string Words, string Citation);
