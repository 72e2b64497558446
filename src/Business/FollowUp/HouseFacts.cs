namespace MitigationOffice.Business.FollowUp;

/// <summary>What reminders hang on at one house.</summary>
public sealed record HouseFacts(int HouseId, TimeZoneInfo Zone, IReadOnlyList<HouseFacts.Unit> Systems)
{
    public IReadOnlyList<Test> Tests { get; init; } = [];
    public IReadOnlyList<Part> Parts { get; init; } = [];

    /// <summary>Days on which the house got another owner; the first is not one of them.</summary>
    public IReadOnlyList<(int Id, DateOnly Day)> NewOwners { get; init; } = [];
    public IReadOnlyList<(int Id, DateOnly Day, string Words)> Changes { get; init; } = [];

    /// <summary>The building is not expected to stand longer.</summary>
    public DateOnly? StandsUntil { get; init; }

    /// <param name="Passive">Without a fan.</param>
    /// <param name="FreezeRisk">The forecast asked for a heat cable or insulation on its outdoor pipe, and none is fitted.</param>
    public sealed record Unit(int Id, string Tag, DateOnly ActivatedOn, DateTime ActivatedAtUtc, DateOnly CompletedOn, bool Passive, bool FreezeRisk, bool HasGauge);

    /// <param name="Valid">Judged, and not found invalid.</param>
    public sealed record Test(DateOnly StartedOn, DateOnly EndedOn, DateTime EndedAtUtc, bool Valid, bool FoundInvalid);

    /// <summary>A part that stands in the house now.</summary>
    public sealed record Part(int ComponentId, int SystemId, Systems.ComponentKind Kind, string Model, DateOnly FittedOn, DateOnly? BatteryFittedOn, DateOnly? WarrantyUntil);
}
