using System.Text.Json;
using System.Text.Json.Serialization;
using MitigationOffice.Business.Staff;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>How far a house of the demo has come.</summary>
public enum DemoStage
{
    Inquiry,
    Diagnosed,
    Designed,
    QuoteDraft,
    QuoteSent,
    QuoteRevised,
    Declined,
    Accepted,
    Planned,
    PlannedLate,
    TestWaiting,
    DevicesOut,
    Passed,
    NotPassed,
    TwoYears,
}

public sealed record DemoHouse(string Street, string Customer, DemoStage Stage, int DaysAgo, decimal PCiL, string Room, int Year, double Storeys)
{
    public string Business { get; init; } = "";
    public bool NoEmail { get; init; }

    /// <summary>The job takes two days, with a permit and appointments.</summary>
    public bool TwoDays { get; init; }

    /// <summary>The owner asked for service on the system's own page.</summary>
    public bool Service { get; init; }
    public string Ground { get; init; } = "";
    public string Route { get; init; } = "";
    public DemoPlan? Plan { get; init; }
    public Business.Houses.SumpKind Sump { get; init; }
    public bool NaturalDraft { get; init; }
    public bool Vermiculite { get; init; }
    public bool UnderTrees { get; init; }
    public int? YearsInUse { get; init; }
    /// <summary>A second device beside the first one, and what it showed.</summary>
    public decimal? Beside { get; init; }

    /// <summary>Measured by the office's own monitor, whose file is read in.</summary>
    public bool Monitor { get; init; }
    public IReadOnlyList<decimal> Results { get; init; } = [];
    public IReadOnlyList<string> AddOns { get; init; } = [];

    /// <summary>Which of the choices is taken, 1 to 3.</summary>
    public int Tier { get; init; } = 1;

    /// <summary>The third choice takes this route, on a design of its own.</summary>
    public string OtherRoute { get; init; } = "";
}

/// <summary>A floor plan as somebody would type it.</summary>
public sealed record DemoPlan(IReadOnlyList<DemoFloor> Floors, IReadOnlyList<string> Footings, string Sump, DemoPlace Pit, IReadOnlyList<DemoPlace> Holes)
{
    /// <summary>Where a second suction point was tried, for the far side of a footing.</summary>
    public DemoPlace? SecondPit { get; init; }
}

public sealed record DemoFloor(string Name, Business.Houses.FoundationKind Kind, string Corners);

public sealed record DemoPlace(string At, string Place);

public sealed record DemoPerson(string Name, string Email, StaffRole Role);

public sealed record DemoLicence(string Holder, string Number, string IssuedBy, int ExpiresInDays);

public sealed record DemoCompany(
    string Name, string Street, string City, string State, string Zip, string Phone, string Email, string TimeZone, string CertificationNumber,
    string StateProgram, string StateProgramPhone, decimal TaxPercent, decimal ElectricityCentsPerKWh, string ElectricityPriceSource,
    double DesignWinterC, double JanuaryMeanC, double MeanAnnualC, double HeatingDegreeDaysC, double ElevationM, int WinterDays,
    IReadOnlyList<DemoPerson> People, IReadOnlyList<DemoLicence> Licences);

/// <summary>The files of demo-data, beside the program.</summary>
public static class DemoFiles
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter() } };

    public static string Text(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo-data", name));

    public static DemoCompany Company() => Read<DemoCompany>("company.json");

    public static IReadOnlyList<DemoHouse> Houses() => Read<List<DemoHouse>>("houses.json");

    private static T Read<T>(string name) =>
        JsonSerializer.Deserialize<T>(Text(name), Json) ?? throw new InvalidOperationException($"demo-data/{name} is empty.");
}
