using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>A fan as it is typed.</summary>
public sealed class FanForm
{
    public sealed class Point
    {
        public string? Flow { get; set; }
        public string? Pressure { get; set; }
        public string? Watts { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(Flow + Pressure + Watts);
    }

    private const int MostRows = 60;

    public string? Model { get; set; }
    public string? Maker { get; set; }
    public string? Connection { get; set; } = "4in";
    public string? Price { get; set; }
    public string? Noise { get; set; }
    public string? WarrantyYears { get; set; } = "5";
    public string? LifeYears { get; set; } = "8";
    public bool Retired { get; set; }
    public List<Point> Points { get; set; } = [];

    public static FanForm Of(Fan fan, UnitSystem units) => new()
    {
        Model = fan.Model,
        Maker = fan.Maker,
        Connection = fan.Connection,
        Price = Plain(fan.Price),
        Noise = fan.NoiseDbA is { } db ? Plain((decimal)db) : "",
        WarrantyYears = Plain((decimal)fan.WarrantyYears),
        LifeYears = Plain((decimal)fan.ExpectedLifeYears),
        Retired = fan.Retired,
        Points = [.. fan.Points.OrderBy(p => p.FlowM3PerS).Select(p => new Point
        {
            Flow = Measures.Flow.Number(p.FlowM3PerS, units), Pressure = Fine(p.StaticPressurePa, units), Watts = Measures.Power.Number(p.Watts, units),
        })],
    };

    public void OfferRows(int extra)
    {
        while (Points.Count < MostRows && (Points.Count < 5 || Points.Count(p => p.IsEmpty) < extra)) Points.Add(new Point());
    }

    public void Write(Fan fan, FormReading read)
    {
        fan.Model = read.Text(Model, nameof(Model), "model", needed: true, most: 80);
        fan.Maker = read.Text(Maker, nameof(Maker), "maker", most: 80);
        fan.Connection = read.Text(Connection, nameof(Connection), "pipe size", most: 20);
        fan.Price = read.Money(Price, nameof(Price), "price") ?? Money.Zero;
        fan.NoiseDbA = (double?)read.Number(Noise, nameof(Noise), "noise", 0, 120);
        fan.WarrantyYears = read.Whole(WarrantyYears, nameof(WarrantyYears), "years of warranty", 0, 30) ?? 0;
        fan.ExpectedLifeYears = read.Whole(LifeYears, nameof(LifeYears), "years of expected life", 1, 40, needed: true) ?? 8;
        fan.Retired = Retired;
        WritePoints(fan, read);
    }

    private void WritePoints(Fan fan, FormReading read)
    {
        var points = new List<FanPoint>();
        for (var i = 0; i < Points.Count; i++)
        {
            if (Points[i].IsEmpty) continue;
            points.Add(new FanPoint
            {
                FlowM3PerS = read.Needed(Measures.Flow, Points[i].Flow, $"Points[{i}].Flow"),
                StaticPressurePa = read.Needed(Measures.GaugePressure, Points[i].Pressure, $"Points[{i}].Pressure"),
                Watts = read.Needed(Measures.Power, Points[i].Watts, $"Points[{i}].Watts"),
            });
        }

        var curve = new Fan { Model = fan.Model, Points = points };
        foreach (var problem in FanCurveRules.Problems(curve)) read.Refuse("Points[0].Flow", "The curve: " + problem);
        fan.Points.Clear();
        fan.Points.AddRange(points);
    }

    /// <summary>Pressures of a curve to a thousandth of an inch, so that saving twice changes nothing.</summary>
    private static string Fine(double pa, UnitSystem units) =>
        (units == UnitSystem.US ? Measures.GaugePressure with { UsDecimals = 3 } : Measures.GaugePressure with { SiDecimals = 1 }).Number(pa, units);
}
