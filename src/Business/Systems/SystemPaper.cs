using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Drawing;

namespace MitigationOffice.Business.Systems;

/// <summary>Everything the label and the packet say, gathered once; the papers are made from this alone.</summary>
public sealed record SystemPaper
{
    public const int HoursAYear = 8760;

    public required DateTime MadeAtUtc { get; init; }
    public required string Company { get; init; }
    public string CompanyAddress { get; init; } = "";
    public string Phone { get; init; } = "";
    public string Email { get; init; } = "";
    public string CertificationNumber { get; init; } = "";
    public string StateProgram { get; init; } = "";
    public string StateProgramPhone { get; init; } = "";
    public required string House { get; init; }
    public string For { get; init; } = "";
    public required string TagNumber { get; init; }
    public required DateOnly CompletedOn { get; init; }
    public string SystemType { get; init; } = "";
    public int SuctionPoints { get; init; } = 1;
    public string PipeSize { get; init; } = "";
    public string FanPlace { get; init; } = "";
    public string Fan { get; init; } = "";
    public string FanSerial { get; init; } = "";
    public DateOnly? FanWarrantyUntil { get; init; }
    public string Gauge { get; init; } = "";
    public double? StartUpGaugePa { get; init; }
    public double? Watts { get; init; }
    public decimal ElectricityCentsPerKWh { get; init; }
    public string Alarm { get; init; } = "";
    public DateOnly? AlarmBatteryOn { get; init; }
    public int AlarmBatteryMonths { get; init; } = 12;
    public int RetestMonths { get; init; } = 24;
    public IReadOnlyList<string> Besides { get; init; } = [];
    public IReadOnlyList<FinalReading> Readings { get; init; } = [];
    public string DifferencesFromDesign { get; init; } = "";
    public string SecondBranch { get; init; } = "";
    public string TakenOverParts { get; init; } = "";
    public string Wiring { get; init; } = "";

    /// <summary>The contract it was built by: number, day, who signed. No price: installers hand the packet over.</summary>
    public string Contract { get; init; } = "";

    /// <summary>Days at risk of ice in a winter, where the design foresaw them; empty: nothing foreseen.</summary>
    public string Ice { get; init; } = "";

    /// <summary>Address of the system's own page; empty: none.</summary>
    public string OwnPage { get; init; } = "";
    public BackdraftCheck Backdraft { get; init; }
    public bool LeftRunning { get; init; } = true;

    /// <summary>Radon results before and after, a line each.</summary>
    public IReadOnlyList<string> Results { get; init; } = [];
    public HouseFacts? Section { get; init; }

    /// <summary>What the suction at the holes was read with, and how its calibration stood; empty: not written down.</summary>
    public string ReadWith { get; init; } = "";

    /// <summary>The appliances whose draft was checked, a line each.</summary>
    public IReadOnlyList<string> DraftChecks { get; init; } = [];

    /// <summary>The photos chosen for the packet.</summary>
    public IReadOnlyList<(byte[] Bytes, string Caption)> Photos { get; init; } = [];

    /// <summary>What the fan's current costs a year: watts × 8,760 h × the price. 15.2 W at 11 ¢/kWh: $14.65.</summary>
    public Money? CostPerYear => Watts is { } watts ? Money.FromDollars((decimal)watts * HoursAYear / 1000m * ElectricityCentsPerKWh / 100m) : null;

    public string StartUpReading => StartUpGaugePa is { } pa ? $"{Measures.GaugePressure.Show(pa)} ({Measures.GaugePressure.Show(pa, UnitSystem.SI)})" : "not read";

    public string TestEvery => Math.Min(RetestMonths, 24) is var months && months % 12 == 0
        ? months == 12 ? "year" : $"{months / 12} years".Replace("2 years", "two years", StringComparison.Ordinal)
        : $"{months} months";

    public string Program => StateProgram.Length == 0 ? "U.S. EPA, epa.gov/radon" : $"{StateProgram}{(StateProgramPhone.Length == 0 ? "" : ", " + StateProgramPhone)}";

    public string Line(string name, string number) => number.Length == 0 ? "" : $"{name} {number}";

    public static string Number(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);
}
