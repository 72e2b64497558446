using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>
/// The outdoor run cut into cells, with the state that changes: ice on the wall, and the rates of the last march. One march
/// costs a fixed number of steps per cell and allocates nothing.
/// </summary>
internal sealed class RunMarch
{
    public const double LongestCellM = 0.25;

    /// <summary>Open share at or under which the pipe counts as shut, dimensionless.</summary>
    public const double ShutOpenShare = 0.04;

    private readonly OutdoorRun run;
    private readonly StreamAssumptions air;
    private readonly double longestCellM;
    private readonly double[] wallResistance;
    private readonly Surroundings[] around;

    public RunMarch(OutdoorRun run, StreamAssumptions air, double longestCellM = LongestCellM)
    {
        (this.run, this.air, this.longestCellM) = (run, air, longestCellM);
        PieceOfCell = [.. run.Pieces.SelectMany((piece, at) => Enumerable.Repeat(at, CellsOf(piece)))];
        Count = PieceOfCell.Length;
        CellM = [.. PieceOfCell.Select(at => run.Pieces[at].LengthM / CellsOf(run.Pieces[at]))];
        wallResistance = [.. run.Pieces.Select(WallResistance)];
        around = new Surroundings[run.Pieces.Count];
        (AirC, SurfaceC, DrainKgPerS, FrostKgPerS, MeltKgPerS, HeatOutW) = (New(), New(), New(), New(), New(), New());
        IceKgPerM = New();
        IceConductivity = IceSleeve.ConductivityWPerMK(air.IceKgPerM3);
        FullIceKgPerM = air.IceKgPerM3 * Math.PI * run.BoreM * run.BoreM / 4;
    }

    public int Count { get; }
    public int[] PieceOfCell { get; }
    public double[] CellM { get; }
    public double[] IceKgPerM { get; }
    public double[] AirC { get; }
    public double[] SurfaceC { get; }
    public double[] DrainKgPerS { get; }
    public double[] FrostKgPerS { get; }
    public double[] MeltKgPerS { get; }
    public double[] HeatOutW { get; }
    public StreamEntry Entry { get; private set; }
    public StreamEntry Exit { get; private set; }
    public double FullIceKgPerM { get; }
    private double IceConductivity { get; }
    public double CableWPerM { get; set; }

    /// <summary>Fog caught by the last cell's wall, which leaves with the air at the mouth, kg/s.</summary>
    public double FogLeftKgPerS { get; private set; }

    public double OpenShareAt(int cell) => 1 - IceKgPerM[cell] / FullIceKgPerM;

    public double NarrowestOpenShare()
    {
        var most = 0.0;
        foreach (var ice in IceKgPerM) most = Math.Max(most, ice);
        return 1 - most / FullIceKgPerM;
    }

    public double ColdestSurfaceC()
    {
        var coldest = double.PositiveInfinity;
        foreach (var surface in SurfaceC) coldest = Math.Min(coldest, surface);
        return coldest;
    }

    public void ClearIce() => Array.Clear(IceKgPerM);

    /// <summary>Marches the air along the run in one weather; flow 0 means shut: only the weather melts ice.</summary>
    public void March(double flowM3PerS, double outdoorC)
    {
        if (flowM3PerS <= 0)
        {
            StandStill(outdoorC);
            return;
        }
        Entry = StreamEntry.Mix(run, air, flowM3PerS);
        LookAround(outdoorC, Entry.AirC, Entry.PressurePa);
        var stream = new Stream(Entry.AirC, Entry.Ratio, Entry.FogRatio, 0);
        for (var cell = 0; cell < Count; cell++) stream = Pass(cell, stream);
        FogLeftKgPerS = stream.CaughtKgPerS;
        Exit = Entry with { AirC = stream.AirC, Ratio = stream.Ratio, FogRatio = stream.Fog };
    }

    /// <summary>Lets ice grow and melt for a time at the rates of the last march.</summary>
    public void Grow(double seconds)
    {
        var shut = FullIceKgPerM * (1 - ShutOpenShare);
        for (var cell = 0; cell < Count; cell++)
        {
            var change = (FrostKgPerS[cell] - MeltKgPerS[cell]) * seconds / CellM[cell];
            IceKgPerM[cell] = Math.Clamp(IceKgPerM[cell] + change, 0, shut);
        }
    }

    private Stream Pass(int cell, Stream stream)
    {
        var exchange = Exchange(cell, stream);
        var resistance = Resistance(cell) / CellM[cell];
        var wall = CellWall.Solve(exchange, stream, Entry.PressurePa, resistance, around[PieceOfCell[cell]].EffectiveC,
            CableWPerM * CellM[cell], IceKgPerM[cell] > 0);
        (SurfaceC[cell], DrainKgPerS[cell], FrostKgPerS[cell]) = (wall.SurfaceC, wall.DrainKgPerS, wall.FrostKgPerS);
        (MeltKgPerS[cell], HeatOutW[cell]) = (wall.MeltKgPerS, wall.HeatOutW);
        var next = stream.After(exchange, wall, Entry, air.FogCaughtShare);
        AirC[cell] = next.AirC;
        return next;
    }

    // What the air can give to the wall in this cell: heat per kelvin and vapour per unit of humidity ratio.
    private CellExchange Exchange(int cell, Stream stream)
    {
        var bore = run.BoreM * Math.Sqrt(OpenShareAt(cell));
        var viscosity = AirTable.ViscosityPaS(stream.AirC);
        var conductivity = AirTable.ConductivityWPerMK(stream.AirC);
        var capacity = StreamEntry.HeatCapacity(stream.Ratio, stream.Fog);
        var reynolds = 4 * Entry.DryKgPerS * (1 + stream.Ratio) / (Math.PI * bore * viscosity);
        var nusselt = InsideFilm.NusseltUnchecked(reynolds, viscosity * capacity / conductivity);
        var units = nusselt * conductivity * Math.PI * CellM[cell] / (Entry.DryKgPerS * capacity);
        var heat = Entry.DryKgPerS * capacity * (1 - Math.Exp(-units));
        var vapour = Entry.DryKgPerS * (1 - Math.Exp(-units / AirTable.LewisFactor));
        return new CellExchange(heat, vapour);
    }

    private double Resistance(int cell)
    {
        var piece = PieceOfCell[cell];
        var ice = -0.5 * Math.Log(OpenShareAt(cell)) / (2 * Math.PI * IceConductivity);
        return ice + wallResistance[piece] + around[piece].ResistanceMKPerW;
    }

    private void StandStill(double outdoorC)
    {
        LookAround(outdoorC, outdoorC, StandardAtmosphere.PressurePa(run.ElevationM));
        Array.Fill(AirC, outdoorC);
        Array.Clear(DrainKgPerS);
        Array.Clear(FrostKgPerS);
        for (var cell = 0; cell < Count; cell++)
        {
            var outside = around[PieceOfCell[cell]].EffectiveC;
            var warm = IceKgPerM[cell] > 0 && outside > 0;
            SurfaceC[cell] = warm ? 0 : outside;
            MeltKgPerS[cell] = warm ? outside / Resistance(cell) * CellM[cell] / AirTable.FusionJPerKg : 0;
        }
    }

    private void LookAround(double outdoorC, double insideC, double pressurePa)
    {
        for (var piece = 0; piece < around.Length; piece++)
            around[piece] = Surroundings.Of(air, outdoorC, OuterM(run.Pieces[piece]), wallResistance[piece] + 0.4, insideC, pressurePa);
    }

    private double OuterM(RunPiece piece) => run.BoreM + 2 * (run.WallM + piece.InsulationM);

    private double WallResistance(RunPiece piece)
    {
        var outside = run.BoreM + 2 * run.WallM;
        return PipeWall.ResistanceMKPerW(run.BoreM, outside, run.WallWPerMK)
            + PipeWall.ResistanceMKPerW(outside, outside + 2 * piece.InsulationM, piece.InsulationWPerMK);
    }

    private double[] New() => new double[Count];

    private int CellsOf(RunPiece piece) => Math.Max(1, (int)Math.Ceiling(piece.LengthM / longestCellM - 1e-9));
}
