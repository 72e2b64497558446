using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.StateReports;

/// <summary>A system with its house and job, as one statement reads it.</summary>
public sealed record SystemRow
{
    public int Id { get; init; }
    public int HouseId { get; init; }
    public required string Tag { get; init; }
    public DateTime ActivatedAtUtc { get; init; }
    public DateOnly CompletedOn { get; init; }
    public required string Type { get; init; }
    public int Points { get; init; }
    public required string Pipe { get; init; }
    public required string FanPlace { get; init; }
    public double? GaugePa { get; init; }
    public BackdraftCheck Backdraft { get; init; }
    public long Cents { get; init; }
    public required string Notes { get; init; }
    public required string Street { get; init; }
    public required string Street2 { get; init; }
    public required string City { get; init; }
    public required string County { get; init; }
    public required string State { get; init; }
    public required string Zip { get; init; }
    public required string Zone { get; init; }
    public BuildingKind Building { get; init; }
    public int? JobId { get; init; }
    public string? JobNumber { get; init; }
    public DateOnly? JobDay { get; init; }
    public string? LeftOut { get; init; }
}

public sealed record AreaRow(int HouseId, FoundationKind Kind);

public sealed record FanRow(int Id, int SystemId, string Model, string Serial, DateOnly FittedOn, DateOnly? RemovedOn);

public sealed record OwnerRow(int HouseId, DateOnly FromDay, DateOnly? ToDay, int CustomerId, string Name, string Phone);

public sealed record BeforeRow(int Id, int HouseId, decimal PCiL, string Device, DateOnly? StartedOn, DateOnly? EndedOn, string MadeBy);

public sealed record TestRow(int Id, int HouseId, int? SystemId, DateTime StartedAtUtc, DateTime EndedAtUtc, decimal? PCiL, string MadeBy, string MadeByNumber, IReadOnlyList<DeviceKind> Devices);
