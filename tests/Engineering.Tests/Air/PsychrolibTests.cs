using System.Globalization;
using MitigationOffice.Engineering.Air;

namespace MitigationOffice.Engineering.Tests.Air;

/// <summary>Moist air from −40 to 60 °C against psychrolib 1.1.1 (SI): tests/Reference/air.mjs makes the table.</summary>
public sealed class PsychrolibTests
{
    private static readonly double[][] Rows =
    [
        .. Tables.Read("air.csv").Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1)
            .Select(line => line.Split(',').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray()),
    ];

    /// <summary>Source: psychrolib 1.1.1; the same formulas, so 1e-6.</summary>
    [Fact]
    public void Saturation_humidity_ratio_and_density_are_the_same_to_a_millionth()
    {
        Assert.Equal(369, Rows.Length);
        foreach (var row in Rows)
        {
            var air = new MoistAir(row[0], row[1], row[2]);
            Assert.Equal(1, Saturation.PressurePa(row[0]) / row[3], 1e-6);
            Assert.Equal(1, air.HumidityRatio / row[4], 1e-6);
            Assert.Equal(1, air.DensityKgPerM3 / row[5], 1e-6);
        }
    }

    /// <summary>Source: psychrolib 1.1.1; the same formula, 1e-6 of a kilojoule's scale.</summary>
    [Fact]
    public void Enthalpy_is_the_same_to_a_joule_in_a_million()
    {
        foreach (var row in Rows) Assert.Equal(row[6], new MoistAir(row[0], row[1], row[2]).EnthalpyJPerKg, 0.05);
    }

    /// <summary>Source: psychrolib 1.1.1, which searches the dew point to 0.001 K; tolerance 0.003 K.</summary>
    [Fact]
    public void Dew_point_is_the_same_to_its_search()
    {
        foreach (var row in Rows) Assert.Equal(row[7], new MoistAir(row[0], row[1], row[2]).DewPointC, 0.003);
    }
}
