using MitigationOffice.Engineering.Air;
using MitigationOffice.Engineering.Fans;
using MitigationOffice.Engineering.Network;
using MitigationOffice.Engineering.Piping;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Engineering.Sizing;

/// <summary>What a fan works against: the ground, the pipe and the mouth.</summary>
/// <param name="Soil">Soil resistance.</param>
/// <param name="Route">Pieces from the pit to the mouth.</param>
/// <param name="DensityKgPerM3">Density of the gas, kg/m³.</param>
/// <param name="ViscosityPaS">Its viscosity, Pa·s.</param>
public sealed record SystemCurve(SoilResistance Soil, IReadOnlyList<RoutePiece> Route, double DensityKgPerM3, double ViscosityPaS)
{
    /// <summary>Pressure lost in pipe, fittings and at the mouth, Pa.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: 0 to 5 m³/s. Source: Darcy–Weisbach, minor losses, and one velocity head at the mouth.</remarks>
    public double PipeLossPa(double flowM3PerS)
    {
        var loss = MouthLossPa(flowM3PerS);
        for (var i = 0; i < Route.Count; i++) loss += Route[i].LossPa(flowM3PerS, DensityKgPerM3, ViscosityPaS);
        return loss;
    }

    /// <summary>Velocity head lost at the mouth, Pa.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: 0 to 5 m³/s. Source: K = 1 at a free mouth.</remarks>
    public double MouthLossPa(double flowM3PerS)
    {
        if (Route.Count == 0) return 0;
        var velocity = Route[^1].Size.VelocityMPerS(flowM3PerS);
        return 0.5 * DensityKgPerM3 * velocity * velocity;
    }

    /// <summary>Pressure the fan must give at a flow, Pa.</summary>
    /// <param name="flowM3PerS">Flow, m³/s.</param>
    /// <remarks>Range: 0 to 5 m³/s. Source: sum of the parts.</remarks>
    public double NeededPa(double flowM3PerS) => Soil.PitVacuumPa(flowM3PerS) + PipeLossPa(flowM3PerS);

    /// <summary>Where a fan runs on this system; null where that is off its measured curve.</summary>
    /// <param name="fan">The fan's curve.</param>
    /// <remarks>Range: within the fan's measured points. Source: balance of fan and system by <see cref="AirNetwork"/>, solved to 1e-9 of the fan's pressure.</remarks>
    public OperatingPoint? Meet(FanCurve fan)
    {
        var tree = RouteTree.Of(Route, Soil, [], []);
        var solution = new AirNetwork(tree.Branches, tree.Discharge, DensityKgPerM3, ViscosityPaS).Solve(fan);
        return solution.OnCurve ? tree.PointOf(solution) : null;
    }

    /// <summary>Soil gas of a site: saturated, at ground temperature.</summary>
    /// <param name="soil">Soil resistance.</param>
    /// <param name="route">Pieces from the pit to the mouth.</param>
    /// <param name="site">The place.</param>
    /// <remarks>Range: as the site's parts. Source: saturated air at the ground's temperature and the elevation's pressure.</remarks>
    public static SystemCurve For(SoilResistance soil, IReadOnlyList<RoutePiece> route, SizingSite site)
    {
        var gas = MoistAir.At(site.GroundC, 1, site.ElevationM);
        return new(soil, route, gas.DensityKgPerM3, gas.ViscosityPaS);
    }
}
