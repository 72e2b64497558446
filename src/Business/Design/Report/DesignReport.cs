namespace MitigationOffice.Business.Design.Report;

/// <summary>The computed report of a design: what pages, quotes and the verb <c>design</c> show. SI units.</summary>
public sealed record DesignReport
{
    public required string EngineVersion { get; init; }

    /// <summary>Which fan, and why, in one sentence.</summary>
    public required string Recommendation { get; init; }

    /// <summary>Model of the recommended fan; null where none holds.</summary>
    public string? RecommendedFan { get; init; }

    /// <summary>Model the rest of the report is about: the chosen fan, else the recommended one, else the first that runs at all.</summary>
    public string? ShownFan { get; init; }
    public required double TargetPa { get; init; }
    public required double DesignWinterC { get; init; }

    /// <summary>What design winter takes from every hole beyond the day of the readings.</summary>
    public required double WinterLossPa { get; init; }
    public required SoilResult Soil { get; init; }

    /// <summary>The same of each further suction point, in their order.</summary>
    public IReadOnlyList<FurtherSoil> FurtherSoils { get; init; } = [];

    /// <summary>Every fan of the catalogue, best first.</summary>
    public required IReadOnlyList<FanResult> Fans { get; init; }

    /// <summary>Losses of the route with the shown fan, piece by piece.</summary>
    public required IReadOnlyList<PieceLoss> Losses { get; init; }

    /// <summary>The system's pressure at rising flows, for the chart; empty with further suction points, whose shares change with the flow.</summary>
    public required IReadOnlyList<SystemPoint> SystemCurve { get; init; }
    public FreezeResult? Freeze { get; init; }

    /// <summary>Why there is no freeze forecast, where there is none.</summary>
    public string? WhyNoFreeze { get; init; }
    public SitingResult? Siting { get; init; }

    /// <summary>Suction under the whole slab, where the file has a floor plan.</summary>
    public CoverageResult? Coverage { get; init; }
    public required IReadOnlyList<string> Assumptions { get; init; }
    public required IReadOnlyList<string> Warnings { get; init; }
    public required IReadOnlyList<NumberOrigin> Origins { get; init; }

    public FanResult? Shown => Fans.FirstOrDefault(f => f.Model == ShownFan);
}

/// <summary>What the readings say about the ground, from the day of the test.</summary>
public sealed record SoilResult
{
    /// <summary>Conductance and exponent of Q = G·p^n (m³/s, Pa).</summary>
    public required double Conductance { get; init; }
    public required double Exponent { get; init; }
    public required bool ExponentAssumed { get; init; }
    public required IReadOnlyList<SettingResult> Settings { get; init; }
    public required IReadOnlyList<HoleTransfer> Holes { get; init; }
}

public sealed record SettingResult
{
    public required string Label { get; init; }
    public required double PitVacuumPa { get; init; }
    public double? FlowM3PerS { get; init; }
    public double? FlowLowM3PerS { get; init; }
    public double? FlowHighM3PerS { get; init; }

    /// <summary>"measured", "read off the curve of …", or why there is none.</summary>
    public required string FlowFrom { get; init; }

    /// <summary>A contradiction between measured watts and the curve's, in words.</summary>
    public string? Contradiction { get; init; }
}

public sealed record FurtherSoil(string Name, SoilResult Soil);

/// <summary>Share of the pit's suction that reaches a hole.</summary>
public sealed record HoleTransfer(string Label, double Ratio, double Low, double High, double? DistanceM);

public sealed record FanResult
{
    public required string Model { get; init; }
    public required bool Holds { get; init; }

    /// <summary>Why it holds or not, in one sentence.</summary>
    public required string Why { get; init; }

    /// <summary>False where the fan has no operating point on its curve; then the numbers are empty.</summary>
    public required bool OnCurve { get; init; }
    public double FlowM3PerS { get; init; }
    public double FanPressurePa { get; init; }

    /// <summary>Suction at the pit, what the manometer on the pipe will about show.</summary>
    public double PitVacuumPa { get; init; }
    public double Watts { get; init; }

    /// <summary>On the pipe just before the fan.</summary>
    public double FanInletVacuumPa { get; init; }

    /// <summary>Flow and suction of every suction point, the first one first.</summary>
    public IReadOnlyList<PointResult> Points { get; init; } = [];
    public double? NoiseDbA { get; init; }
    public string? WeakestHole { get; init; }
    public double WeakestNowPa { get; init; }
    public double WeakestWinterPa { get; init; }
    public double WeakestWinterLowPa { get; init; }
    public double WeakestWinterHighPa { get; init; }
    public double FastestMPerS { get; init; }

    /// <summary>Noise or standing water from the speed, in words; null where there is nothing to say.</summary>
    public string? SpeedWords { get; init; }
    public double ElectricityDollarsPerYear { get; init; }
    public double HouseAirDollarsPerYear { get; init; }

    /// <summary>Fan, its replacements, electricity and heated house air over ten years.</summary>
    public double TenYearDollars { get; init; }

    /// <summary>The fan's curve at the site's air, for the chart.</summary>
    public IReadOnlyList<SystemPoint> Curve { get; init; } = [];
    public IReadOnlyList<HolePressure> Holes { get; init; } = [];
}

public sealed record PointResult(string Name, double FlowM3PerS, double PitVacuumPa);

/// <summary>Suction foretold at a hole, positive.</summary>
public sealed record HolePressure(string Label, double NowPa, double WinterPa, double WinterLowPa, double WinterHighPa);

public sealed record PieceLoss(int Position, string Words, double LengthM, double PressurePa, double SpeedMPerS, double? LossK);

public sealed record SystemPoint(double FlowM3PerS, double PressurePa);

public sealed record FreezeResult
{
    public required string Conclusion { get; init; }
    public required double DaysAtRisk { get; init; }
    public required double DaysAtRiskLow { get; init; }
    public required double DaysAtRiskHigh { get; init; }
    public required double OutdoorM { get; init; }
    public double? CableWPerFt { get; init; }
    public double? CableLengthM { get; init; }
    public double? CableDollarsPerWinter { get; init; }
    public double? CableKWhPerWinter { get; init; }
    public double? InsulationR { get; init; }
    public required bool BypassNeeded { get; init; }
    public required string BypassReason { get; init; }
    public double? DaysUntilHalfClosed { get; init; }
    public double? DaysUntilShut { get; init; }
    public required double CondensateKgPerDay { get; init; }

    /// <summary>Winters the days at risk are a mean of; 1 where it is made up.</summary>
    public int Winters { get; init; } = 1;
    public bool WinterMadeUp { get; init; } = true;

    /// <summary>What the manometer shows with the mouth open.</summary>
    public double? ManometerOpenPa { get; init; }

    /// <summary>Day by day at the design temperature, with what the manometer shows as ice closes.</summary>
    public IReadOnlyList<FreezeDay> ColdSpell { get; init; } = [];

    /// <summary>The made-up winter or the middle one of the record, where the file asks for its days.</summary>
    public IReadOnlyList<FreezeDay>? Winter { get; init; }
    public required IReadOnlyList<string> Assumptions { get; init; }
    public required IReadOnlyList<string> Warnings { get; init; }
    public required IReadOnlyList<string> Cautions { get; init; }
    public required IReadOnlyList<string> Sources { get; init; }

    public bool CableAdvised => CableWPerFt is not null && DaysAtRiskHigh >= 1;
}

/// <summary>One day of ice in the outdoor run, as it stands at the day's end; the open share is the day's narrowest.</summary>
public sealed record FreezeDay(DateOnly Day, double MinC, double MaxC, double ThickestIceM, double OpenShare, double DrainedKg, double FrostKg, double? ManometerPa);

public sealed record SitingResult(string Jurisdiction, string Note, IReadOnlyList<RuleResult> Rules)
{
    /// <summary>Which rules these were: the set's key and the hash of its text; empty in reports of earlier programs.</summary>
    public string Key { get; init; } = "";
    public string TextSha256 { get; init; } = "";
}

/// <param name="Outcome">"passes", "fails", "not measured" or "does not apply".</param>
public sealed record RuleResult(string Rule, string Outcome, string Why, bool Advisory, string Source);

/// <summary>Where a number comes from: the formula, what went in, and the source.</summary>
public sealed record NumberOrigin(string Name, string Value, string Formula, IReadOnlyList<string> Inputs, string Source);
