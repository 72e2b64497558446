namespace MitigationOffice.Engineering.Freezing;

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
