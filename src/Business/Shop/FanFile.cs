using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Business.Shop;

/// <summary>The fan catalogue as a file, one line a measured point. In again all or nothing; fans are known by model.</summary>
public static class FanFile
{
    public static readonly string[] Columns =
        ["model", "maker", "connection", "price", "noise_dba", "warranty_years", "life_years", "flow_cfm", "static_pressure_inwc", "watts"];

    public static string Write(IEnumerable<Fan> fans) => Csv.Write(Columns, fans.SelectMany(fan => fan.Points.OrderBy(p => p.FlowM3PerS).Select(p => (IReadOnlyList<string>)
    [
        fan.Model, fan.Maker, fan.Connection, Plain(fan.Price), fan.NoiseDbA is { } db ? Plain((decimal)db) : "",
        Plain((decimal)fan.WarrantyYears), Plain((decimal)fan.ExpectedLifeYears), Exact(Measures.Flow.In(p.FlowM3PerS, UnitSystem.US)),
        Exact(Measures.GaugePressure.In(p.StaticPressurePa, UnitSystem.US)), Exact(p.Watts),
    ])));

    public static (IReadOnlyList<Fan> Fans, IReadOnlyList<string> Problems) Read(string text)
    {
        var content = Csv.Read(text, ["model", "flow_cfm", "static_pressure_inwc", "watts"], Columns);
        var problems = content.Problems.ToList();
        var fans = new Dictionary<string, Fan>(StringComparer.OrdinalIgnoreCase);
        foreach (var row in content.Rows) ReadRow(new RowReading(row, problems), fans);
        foreach (var fan in fans.Values) problems.AddRange(FanCurveRules.Problems(fan).Select(words => $"{fan.Model}: {words}"));
        return ([.. fans.Values], problems);
    }

    private static void ReadRow(RowReading row, Dictionary<string, Fan> fans)
    {
        var model = row.Text("model", needed: true, most: 80);
        if (!fans.TryGetValue(model, out var fan))
            fans.Add(model, fan = new Fan
            {
                Model = model,
                Maker = row.Text("maker", most: 80),
                Connection = row.Text("connection", most: 20),
                Price = row.Money("price", Money.Zero),
                NoiseDbA = row.Number("noise_dba", 0, 120, 0) is var noise and > 0 ? (double)noise : null,
                WarrantyYears = row.Whole("warranty_years", 0, 30, 5),
                ExpectedLifeYears = row.Whole("life_years", 1, 40, 8),
            });
        fan.Points.Add(new FanPoint
        {
            FlowM3PerS = Measures.Flow.ToSi((double)row.Number("flow_cfm", 0, 2000), "cfm"),
            StaticPressurePa = Measures.GaugePressure.ToSi((double)row.Number("static_pressure_inwc", 0, 20), "inWC"),
            Watts = (double)row.Number("watts", 0, 5000),
        });
    }

    /// <summary>Known models are changed and get the new points in place of the old; new ones are added; none is removed.</summary>
    public static async Task<(int Added, int Changed)> ApplyAsync(OfficeDb db, IReadOnlyList<Fan> fans)
    {
        var known = (await db.Fans.Include(f => f.Points).ToListAsync()).ToDictionary(f => f.Model, StringComparer.OrdinalIgnoreCase);
        var (added, changed) = (0, 0);
        foreach (var fan in fans)
        {
            if (!known.TryGetValue(fan.Model, out var kept))
            {
                db.Fans.Add(fan);
                added++;
            }
            else if (Write([kept]) != Write([fan]))
            {
                kept.TakeFrom(fan);
                changed++;
            }
        }

        await db.SaveChangesAsync();
        return (added, changed);
    }

    private static string Exact(double value) =>
        Math.Round(value, 6, MidpointRounding.AwayFromZero).ToString("0.######", CultureInfo.InvariantCulture);
}

/// <summary>What a measured fan curve must be, in words.</summary>
public static class FanCurveRules
{
    public static IEnumerable<string> Problems(Fan fan)
    {
        var points = fan.Points.OrderBy(p => p.FlowM3PerS).ToList();
        if (points.Count < 3) yield return "a curve needs at least three measured points.";
        foreach (var (a, b) in points.Zip(points.Skip(1)))
        {
            var flow = Measures.Flow.Show(b.FlowM3PerS);
            if (b.FlowM3PerS <= a.FlowM3PerS) yield return $"two points stand at the same flow, {flow}.";
            else if (b.StaticPressurePa >= a.StaticPressurePa) yield return $"the static pressure must fall as the flow rises; it does not at {flow}.";
        }

        if (points.Exists(p => p.Watts <= 0)) yield return "every point needs its watts.";
    }
}
