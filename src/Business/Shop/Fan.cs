using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

/// <summary>A fan of the catalogue, with its measured curve.</summary>
[Holds(Truth.Fact)]
[Index(nameof(Model), IsUnique = true)]
public sealed class Fan : Record
{
    public required string Model { get; set; }
    public string Maker { get; set; } = "";

    /// <summary>Pipe size the fan takes, a key of the pipe sizes ("4in").</summary>
    public string Connection { get; set; } = "";
    public Money Price { get; set; }
    public double? NoiseDbA { get; set; }
    public int WarrantyYears { get; set; } = 5;
    public int ExpectedLifeYears { get; set; } = 8;
    public bool Retired { get; set; }
    public List<FanPoint> Points { get; set; } = [];

    /// <summary>Takes over everything but the model's name; the points are replaced.</summary>
    public void TakeFrom(Fan other)
    {
        (Maker, Connection, Price, NoiseDbA, WarrantyYears, ExpectedLifeYears) =
            (other.Maker, other.Connection, other.Price, other.NoiseDbA, other.WarrantyYears, other.ExpectedLifeYears);
        Points.Clear();
        Points.AddRange(other.Points);
    }
}

/// <summary>One measured point of a fan's curve at standard air.</summary>
[Holds(Truth.Fact)]
public sealed class FanPoint : Record
{
    public int FanId { get; set; }
    public double FlowM3PerS { get; set; }
    public double StaticPressurePa { get; set; }
    public double Watts { get; set; }
}
