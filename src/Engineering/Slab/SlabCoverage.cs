namespace MitigationOffice.Engineering.Slab;

/// <summary>One test hole in the fit.</summary>
public sealed record HoleFit
{
    /// <summary>The reading.</summary>
    public required HoleReading Reading { get; init; }

    /// <summary>Vacuum that the fitted map has there, Pa.</summary>
    public required double ComputedPa { get; init; }

    /// <summary>Whether the reading took part in the fit.</summary>
    public required bool Used { get; init; }
}

/// <summary>A proposed second suction point.</summary>
public sealed record SecondPoint
{
    /// <summary>Where.</summary>
    public required SuctionPlace Place { get; init; }

    /// <summary>The map with it.</summary>
    public required CoverageMap Map { get; init; }

    /// <summary>Places tried, a count, dimensionless.</summary>
    public required int PlacesTried { get; init; }
}

/// <summary>
/// The layer under the slab fitted to the day's readings, its map, and what a further suction point would do. It is a guide
/// for where to drill next, no promise of a pressure.
/// </summary>
public sealed class SlabCoverage
{
    private const double NearPitM = 0.5;
    private readonly SlabGrid grid;
    private readonly CoverageInput input;

    private SlabCoverage(CoverageInput input)
    {
        this.input = input;
        input.Check();
        grid = new SlabGrid(input.Plan);
        foreach (var point in input.SuctionPoints) CoverageInput.Check(point, grid);
        var used = input.Readings.Where(IsUsable).ToList();
        var solver = new SheetSolver(grid, input.SuctionPoints);
        var fit = new ReachFit(solver, grid, used, input);
        (ReachM, FootingM, FootingFitted) = (fit.ReachM, fit.FootingM, fit.FootingFitted);
        (TypicalMissFactor, LogReachError) = (Math.Exp(fit.LogMiss), fit.LogReachError);
        solver.Solve(ReachM, FootingM);
        ConductanceM3PerSPa = Conductance(solver);
        Map = MapMaker.Make(grid, solver, input.SuctionPoints, input.TargetPa, ConductanceM3PerSPa);
        Holes = [.. input.Readings.Select(reading => new HoleFit { Reading = reading, ComputedPa = grid.Spread(reading.At).ReadLog(solver.VacuumPa), Used = used.Contains(reading) })];
        Weaknesses = CoverageWords.Weaknesses(this, fit, used.Count, grid.HasFootings);
    }

    /// <summary>Reach λ = √(T/c), m: over each λ the vacuum falls to about a third in a strip, faster around one point.</summary>
    public double ReachM { get; }

    /// <summary>Standard error of ln λ, dimensionless; infinite when the readings do not give it.</summary>
    public double LogReachError { get; }

    /// <summary>Lower end of about 95 % of the likely range of λ, m; 0 when the readings do not give it.</summary>
    public double ReachLowM => ReachM * Math.Exp(-2 * LogReachError);

    /// <summary>Upper end of about 95 % of the likely range of λ, m; infinite when the readings do not give it.</summary>
    public double ReachHighM => ReachM * Math.Exp(2 * LogReachError);

    /// <summary>Hindrance of a footing as metres of open slab, m.</summary>
    public double FootingM { get; }

    /// <summary>Whether the readings gave the footing's hindrance; otherwise it was assumed.</summary>
    public bool FootingFitted { get; }

    /// <summary>Typical factor by which a computed hole misses its reading, dimensionless; 1 is perfect.</summary>
    public double TypicalMissFactor { get; }

    /// <summary>Conductance T of the layer, m³/(s·Pa); null when no flow was measured.</summary>
    public double? ConductanceM3PerSPa { get; }

    /// <summary>Leakiness c of the slab, m³/(s·Pa·m²); null when no flow was measured.</summary>
    public double? LeakinessM3PerSPaM2 => ConductanceM3PerSPa / (ReachM * ReachM);

    /// <summary>The map with the suction points that ran.</summary>
    public CoverageMap Map { get; }

    /// <summary>Every test hole beside what the map has there.</summary>
    public IReadOnlyList<HoleFit> Holes { get; }

    /// <summary>Why the map is weak, one sentence each; empty when nothing speaks against it.</summary>
    public IReadOnlyList<string> Weaknesses { get; }

    /// <summary>Whether anything speaks against the map.</summary>
    public bool IsWeak => Weaknesses.Count > 0;

    /// <summary>What was assumed, one sentence each.</summary>
    public IReadOnlyList<string> Assumptions => CoverageWords.Assumptions(this, input);

    /// <summary>Where the formulas come from, one line each.</summary>
    public IReadOnlyList<string> Sources => CoverageWords.Sources;

    /// <summary>
    /// Fits the layer and makes the map. Example: a pit at 250 Pa in the middle of a 10 m square slab and three holes give
    /// λ, the share of floor beyond 1 Pa and the weakest corner.
    /// </summary>
    /// <param name="input">Plan, suction points, readings, target.</param>
    /// <returns>The fitted slab.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range stated at its member, or a suction point outside every slab.</exception>
    /// <remarks>
    /// Range: as stated at the members of <see cref="CoverageInput"/>, <see cref="SlabPlan"/> and <see cref="SuctionPlace"/>;
    /// λ is sought from two cells to 100 m. Cost: the grid's N cells with band b (cells across the shorter side) take about
    /// N·b²/2 multiplications for each of some thirty trial values.
    /// Source: steady leaky-aquifer sheet (Hantush and Jacob 1955), finite volumes; pit in a cell after Peaceman (1978), both
    /// from memory.
    /// </remarks>
    public static SlabCoverage Compute(CoverageInput input) => new(input);

    /// <summary>The map with one more suction point. Example: a second pit in the weakest corner raises that corner.</summary>
    /// <param name="second">The further suction point.</param>
    /// <returns>The new map, on the same fitted layer.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The point is out of range or outside every slab.</exception>
    /// <remarks>
    /// Range: as at <see cref="SuctionPlace"/>. All pits are held at the vacuum stated; a real fan gives less when a second
    /// point draws from it too.
    /// Source: as <see cref="Compute"/>.
    /// </remarks>
    public CoverageMap WhatIf(SuctionPlace second)
    {
        CoverageInput.Check(second, grid);
        IReadOnlyList<SuctionPlace> points = [.. input.SuctionPoints, second];
        var solver = new SheetSolver(grid, points);
        solver.Solve(ReachM, FootingM);
        return MapMaker.Make(grid, solver, points, input.TargetPa, ConductanceM3PerSPa);
    }

    /// <summary>
    /// Searches the best place for one more suction point: most floor beyond the target; among equals the strongest weakest
    /// spot. Example: with a pit at one end of a long slab it proposes a place towards the other end.
    /// </summary>
    /// <param name="pitVacuumPa">Vacuum the new pit is held at, Pa.</param>
    /// <param name="pitRadiusM">Radius of the new pit, m.</param>
    /// <param name="isAllowed">Says whether a place may be drilled; every place when null.</param>
    /// <returns>The proposal, or null when no place is allowed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range below.</exception>
    /// <remarks>
    /// Range: vacuum 0.5 to 20 000 Pa, radius 0.03 to 0.6 m. Cost: one solution (2·N·b multiplications) for each place; every
    /// cell is tried up to 2000 cells, on larger plans every second or third and then all around the best.
    /// Source: exhaustive search with superposition of unit solutions.
    /// </remarks>
    public SecondPoint? BestSecondPoint(double pitVacuumPa, double pitRadiusM = 0.15, Func<PlanPoint, bool>? isAllowed = null)
    {
        Require.InRange(pitVacuumPa, 0.5, 20_000, "Pa", "Pit vacuum");
        Require.InRange(pitRadiusM, 0.03, 0.6, "m", "Pit radius");
        var search = new SecondPointSearch(grid, input, ReachM, FootingM, pitVacuumPa, pitRadiusM, isAllowed ?? (_ => true));
        if (search.Best is not { } cell) return null;
        var place = new SuctionPlace { Name = "proposed point", At = grid.Centres[cell], PitVacuumPa = pitVacuumPa, PitRadiusM = pitRadiusM };
        return new SecondPoint { Place = place, Map = WhatIf(place), PlacesTried = search.Tried };
    }

    // Right at a pit the reading tells of the pit's shape, not of the layer; outside the plan it tells nothing.
    private bool IsUsable(HoleReading reading) =>
        grid.Holds(reading.At) && input.SuctionPoints.All(point => point.At.DistanceM(reading.At) >= NearPitM);

    private double? Conductance(SheetSolver solver)
    {
        var (flow, over) = (0.0, 0.0);
        for (var point = 0; point < input.SuctionPoints.Count; point++)
        {
            if (input.SuctionPoints[point].FlowM3PerS is not { } measured || measured <= 0) continue;
            flow += measured;
            over += solver.FlowsPa[point];
        }
        return over > 0 ? flow / over : null;
    }
}
