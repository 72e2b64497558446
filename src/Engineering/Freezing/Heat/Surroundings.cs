namespace MitigationOffice.Engineering.Freezing;

/// <summary>What the outside of a pipe meets: a film resistance per metre and one effective temperature of air and sky.</summary>
internal readonly record struct Surroundings(double ResistanceMKPerW, double EffectiveC)
{
    private const double Gravity = 9.80665;

    // The film depends a little on the surface's own temperature; two passes settle it well within its own uncertainty.
    public static Surroundings Of(StreamAssumptions air, double outdoorC, double outerM, double innerResistance, double insideC, double pressurePa)
    {
        var seen = At(air, outdoorC, outerM, outdoorC + 3, pressurePa);
        var surface = seen.EffectiveC + (insideC - seen.EffectiveC) * seen.ResistanceMKPerW / (seen.ResistanceMKPerW + innerResistance);
        return At(air, outdoorC, outerM, surface, pressurePa);
    }

    private static Surroundings At(StreamAssumptions air, double outdoorC, double outerM, double surfaceC, double pressurePa)
    {
        var convection = Convection(air.WindMPerS, outdoorC, surfaceC, outerM, pressurePa);
        var sky = OutsideFilm.ClearSkyC(outdoorC);
        var toSky = air.SkyShare * OutsideFilm.LongWaveWPerM2K(surfaceC, sky);
        var toGround = (1 - air.SkyShare) * OutsideFilm.LongWaveWPerM2K(surfaceC, outdoorC);
        var film = convection + toSky + toGround;
        return new Surroundings(1 / (film * Math.PI * outerM), outdoorC + toSky * (sky - outdoorC) / film);
    }

    private static double Convection(double wind, double outdoorC, double surfaceC, double outerM, double pressurePa)
    {
        var filmC = (outdoorC + surfaceC) / 2;
        var density = pressurePa / (287.05 * (filmC + 273.15));
        var conductivity = AirTable.ConductivityWPerMK(filmC);
        var kinematic = AirTable.ViscosityPaS(filmC) / density;
        var prandtl = AirTable.ViscosityPaS(filmC) * AirTable.DryAirJPerKgK / conductivity;
        var forced = OutsideFilm.CrossFlowNusselt(wind * outerM / kinematic, prandtl);
        var rayleigh = Gravity * Math.Abs(surfaceC - outdoorC) / (filmC + 273.15) * outerM * outerM * outerM * prandtl / (kinematic * kinematic);
        var still = OutsideFilm.StillAirNusselt(rayleigh, prandtl);
        return Math.Cbrt(forced * forced * forced + still * still * still) * conductivity / outerM;
    }
}
