namespace MitigationOffice.Engineering.Slab;

/// <summary>The pull of a warm house on its ground in cold weather: what the suction under the slab has to beat.</summary>
public static class StackEffect
{
    /// <summary>Pressure difference at the slab, Pa. Example: 0 °F outdoors, 70 °F indoors, 16 ft to the neutral plane → 8.74 Pa.</summary>
    /// <param name="outdoorC">Outdoor temperature, °C.</param>
    /// <param name="indoorC">Indoor temperature, °C.</param>
    /// <param name="neutralPlaneM">Height from the slab to the neutral plane, m.</param>
    /// <param name="pressurePa">Air pressure, Pa.</param>
    /// <remarks>Range: temperatures −60 to 60 °C, height 0 to 60 m; refused outside. Negative when it is warmer outdoors.
    /// Source: hydrostatics of two columns of ideal gas, g·h·P/R·(1/To − 1/Ti).</remarks>
    public static double PressurePa(double outdoorC, double indoorC, double neutralPlaneM, double pressurePa = 101_325)
    {
        var outdoorK = Require.InRange(outdoorC, -60, 60, "°C") + 273.15;
        var indoorK = Require.InRange(indoorC, -60, 60, "°C") + 273.15;
        return 9.80665 * Require.InRange(neutralPlaneM, 0, 60, "m") * pressurePa / 287.055 * (1 / outdoorK - 1 / indoorK);
    }
}
