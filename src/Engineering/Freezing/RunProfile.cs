namespace MitigationOffice.Engineering.Freezing;

/// <summary>One place along the outdoor run in steady weather.</summary>
public sealed record RunStation
{
    /// <summary>Distance of the cell's middle from the foot of the run, m.</summary>
    public required double DistanceM { get; init; }

    /// <summary>Air temperature behind the cell, °C.</summary>
    public required double AirC { get; init; }

    /// <summary>Temperature of the inner wall, °C.</summary>
    public required double WallC { get; init; }

    /// <summary>Water condensed in this cell that runs off, kg a day.</summary>
    public required double CondensateKgPerDay { get; init; }

    /// <summary>Frost laid down in this cell, kg a day.</summary>
    public required double FrostKgPerDay { get; init; }
}

/// <summary>The bare outdoor run in steady weather.</summary>
public sealed record RunProfile
{
    /// <summary>Outdoor temperature, °C.</summary>
    public required double OutdoorC { get; init; }

    /// <summary>The cells from the foot of the run to the mouth.</summary>
    public required IReadOnlyList<RunStation> Stations { get; init; }

    /// <summary>Air temperature at the foot of the run, °C.</summary>
    public required double EntryC { get; init; }

    /// <summary>Air temperature at the mouth, °C.</summary>
    public required double ExitC { get; init; }

    /// <summary>Water brought in by the air, as vapour and fog, kg a day.</summary>
    public required double WaterInKgPerDay { get; init; }

    /// <summary>Water that leaves the mouth as vapour, kg a day.</summary>
    public required double VapourOutKgPerDay { get; init; }

    /// <summary>Water that leaves the mouth as fog, kg a day.</summary>
    public required double FogOutKgPerDay { get; init; }

    /// <summary>Water that condenses in the run and runs off, kg a day.</summary>
    public required double CondensateKgPerDay { get; init; }

    /// <summary>The part of the condensate that runs back to the foot of the run, kg a day.</summary>
    public required double BackToFootKgPerDay { get; init; }

    /// <summary>Frost laid down in the run, kg a day.</summary>
    public required double FrostKgPerDay { get; init; }

    /// <summary>Heat lost through the wall of the whole run, W.</summary>
    public required double HeatLostW { get; init; }

    /// <summary>Heat given up by the air: entry less exit enthalpy, less what the water that stays behind keeps, W.</summary>
    public required double HeatGivenW { get; init; }

    /// <summary>Distance at which condensate first forms, m; null when none does.</summary>
    public required double? FirstCondensateM { get; init; }

    /// <summary>Distance at which frost first forms, m; null when none does.</summary>
    public required double? FirstFrostM { get; init; }

    /// <summary>Coldest inner wall, °C.</summary>
    public double ColdestWallC => Stations.Min(station => station.WallC);
}

/// <summary>Computes the steady picture of a bare outdoor run.</summary>
public static class SteadyRun
{
    private const double SecondsPerDay = 86_400;

    /// <summary>
    /// Marches the air along the run in steady weather, without ice. Example: 4 in bare PVC, 20 ft, 50 cfm, dry air at
    /// 12.8 °C against −17.8 °C leaves the mouth near 1 °C.
    /// </summary>
    /// <param name="run">The pipe and its flow.</param>
    /// <param name="assumptions">What is assumed about the air and the weather.</param>
    /// <param name="outdoorC">Outdoor temperature, °C.</param>
    /// <param name="cableWPerM">Heat given by a cable along the whole run, W/m.</param>
    /// <returns>Temperatures, water and frost along the run.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An input lies outside the range stated at its member or below.</exception>
    /// <remarks>
    /// Range: outdoor temperature −55 to 45 °C, cable 0 to 200 W/m.
    /// Source: energy and water balance of each cell with <see cref="InsideFilm"/>, <see cref="OutsideFilm"/>,
    /// <see cref="PipeWall"/>; vapour moves by the analogy of heat and mass transfer (Chilton and Colburn), Lewis factor 0.897.
    /// </remarks>
    public static RunProfile At(OutdoorRun run, StreamAssumptions assumptions, double outdoorC, double cableWPerM = 0)
    {
        InputCheck.Check(run);
        InputCheck.Check(assumptions);
        Require.InRange(outdoorC, -55, 45, "°C", "Outdoor temperature");
        Require.InRange(cableWPerM, 0, 200, "W/m", "Heat of the cable");
        var march = new RunMarch(run, assumptions) { CableWPerM = cableWPerM };
        march.March(run.FlowM3PerS, outdoorC);
        return Profile(run, march, outdoorC);
    }

    private static RunProfile Profile(OutdoorRun run, RunMarch march, double outdoorC)
    {
        var stations = Stations(march);
        var (entry, exit) = (march.Entry, march.Exit);
        return new RunProfile
        {
            OutdoorC = outdoorC,
            Stations = stations,
            EntryC = entry.AirC,
            ExitC = exit.AirC,
            WaterInKgPerDay = entry.DryKgPerS * (entry.Ratio + entry.FogRatio) * SecondsPerDay,
            VapourOutKgPerDay = entry.DryKgPerS * exit.Ratio * SecondsPerDay,
            FogOutKgPerDay = (entry.DryKgPerS * exit.FogRatio + march.FogLeftKgPerS) * SecondsPerDay,
            CondensateKgPerDay = stations.Sum(station => station.CondensateKgPerDay),
            BackToFootKgPerDay = stations.Take(CellsDrainingBack(run, march)).Sum(station => station.CondensateKgPerDay),
            FrostKgPerDay = stations.Sum(station => station.FrostKgPerDay),
            HeatLostW = march.HeatOutW.Sum(),
            HeatGivenW = HeatGiven(march),
            FirstCondensateM = stations.FirstOrDefault(station => station.CondensateKgPerDay > 1e-6)?.DistanceM,
            FirstFrostM = stations.FirstOrDefault(station => station.FrostKgPerDay > 1e-6)?.DistanceM,
        };
    }

    private static List<RunStation> Stations(RunMarch march)
    {
        var stations = new List<RunStation>(march.Count);
        var distance = 0.0;
        for (var cell = 0; cell < march.Count; cell++)
        {
            stations.Add(new RunStation
            {
                DistanceM = distance + march.CellM[cell] / 2,
                AirC = march.AirC[cell],
                WallC = march.SurfaceC[cell],
                CondensateKgPerDay = march.DrainKgPerS[cell] * SecondsPerDay,
                FrostKgPerDay = march.FrostKgPerS[cell] * SecondsPerDay,
            });
            distance += march.CellM[cell];
        }
        return stations;
    }

    private static double HeatGiven(RunMarch march)
    {
        var (entry, exit) = (march.Entry, march.Exit);
        var air = entry.DryKgPerS * (StreamEntry.Enthalpy(entry.AirC, entry.Ratio, entry.FogRatio)
            - StreamEntry.Enthalpy(exit.AirC, exit.Ratio, exit.FogRatio));
        var kept = march.FogLeftKgPerS * AirTable.WaterJPerKgK * exit.AirC;
        for (var cell = 0; cell < march.Count; cell++)
        {
            var surface = march.SurfaceC[cell];
            kept += march.DrainKgPerS[cell] * AirTable.WaterJPerKgK * surface;
            kept += march.FrostKgPerS[cell] * (AirTable.IceJPerKgK * surface - AirTable.FusionJPerKg);
        }
        return air - kept;
    }

    private static int CellsDrainingBack(OutdoorRun run, RunMarch march)
    {
        var pieces = run.Pieces.TakeWhile(piece => piece.Direction is RunDirection.Up or RunDirection.SlopedBack).Count();
        return march.PieceOfCell.Count(piece => piece < pieces);
    }
}
