using System.Globalization;

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
    /// <param name="Freeze">What is known of ice in its outdoor pipe; null: nothing, or it has a heat cable or what the forecast asked for.</param>
    public sealed record Unit(int Id, string Tag, DateOnly ActivatedOn, DateTime ActivatedAtUtc, DateOnly CompletedOn, bool Passive, Ice? Freeze, bool HasGauge);

    /// <param name="DaysAtRisk">Days of a winter on which ice closes half of the outdoor pipe, as the design foretells that was built or accepted.</param>
    /// <param name="Declined">A heat cable or insulation was recommended and not taken.</param>
    public sealed record Ice(double? DaysAtRisk, bool Declined)
    {
        /// <summary>The sentence of the note; null where it is not at risk.</summary>
        public string? Because(int fromDays) => DaysAtRisk >= fromDays
            ? string.Create(CultureInfo.InvariantCulture, $"The design expects about {DaysAtRisk:0} {(DaysAtRisk < 1.5 ? "day" : "days")} of a winter on which ice closes half of the outdoor pipe or more, and no heat cable is fitted.")
            : Declined ? "The forecast for the outdoor pipe asked for a heat cable or insulation, and none is fitted." : null;
    }

    /// <param name="Valid">Judged, and not found invalid.</param>
    public sealed record Test(DateOnly StartedOn, DateOnly EndedOn, DateTime EndedAtUtc, bool Valid, bool FoundInvalid);

    /// <summary>A part that stands in the house now.</summary>
    public sealed record Part(int ComponentId, int SystemId, Systems.ComponentKind Kind, string Model, DateOnly FittedOn, DateOnly? BatteryFittedOn, DateOnly? WarrantyUntil);
}
