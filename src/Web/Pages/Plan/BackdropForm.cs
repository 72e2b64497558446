using System.Globalization;
using System.Text.RegularExpressions;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>How the picture lies under the plan, as it is typed or clicked.</summary>
public sealed partial class BackdropForm
{
    private static readonly Measure Apart = Measures.Length with { Name = "length between the two points", Least = 0.3, Most = 150 };

    public string? From { get; set; }
    public string? To { get; set; }
    public string? Length { get; set; }
    public string? At { get; set; }
    public bool Printed { get; set; }

    public static BackdropForm Of(PlanBackdrop b, UnitSystem units) => new()
    {
        From = Pair(b.FromXPx, b.FromYPx), To = Pair(b.ToXPx, b.ToYPx), Length = Measures.Length.Number(b.LengthM, units),
        At = PlanText.Show(new PlanPoint(b.AtXM, b.AtYM), units), Printed = b.Printed,
    };

    public void Write(PlanBackdrop b, FormReading read, UnitSystem units)
    {
        var from = Point(From, nameof(From), "first point", b, read);
        var to = Point(To, nameof(To), "second point", b, read);
        if (from is var (x, y) && to is var (x2, y2))
        {
            if (Math.Abs(x - x2) + Math.Abs(y - y2) < 5) read.Refuse(nameof(To), "The two points lie at the same place; take two that are far apart, the farther the truer the scale.");
            (b.FromXPx, b.FromYPx, b.ToXPx, b.ToYPx) = (x, y, x2, y2);
        }

        b.LengthM = read.Measure(Apart, Length, nameof(Length), needed: true) ?? b.LengthM;
        var (at, problem) = ReadPlaces.One(At, "the first point", units);
        if (problem is not null) read.Refuse(nameof(At), problem);
        (b.AtXM, b.AtYM) = (at?.XM ?? 0, at?.YM ?? 0);
        b.Printed = Printed;
        if (b.Lies is var (low, high) && Math.Max(high.XM - low.XM, high.YM - low.YM) > 300)
            read.Refuse(nameof(Length), $"With this length the picture would be {Measures.Length.Show(Math.Max(high.XM - low.XM, high.YM - low.YM), units)} across. Is the unit right, and are the points far enough apart?");
    }

    [GeneratedRegex(@"^\s*\(?\s*(?<x>\d{1,5}(?:\.\d{1,2})?)\s*[,;\s]\s*(?<y>\d{1,5}(?:\.\d{1,2})?)\s*\)?\s*$", RegexOptions.NonBacktracking | RegexOptions.CultureInvariant)]
    private static partial Regex PairRegex();

    private static (double X, double Y)? Point(string? typed, string field, string name, PlanBackdrop b, FormReading read)
    {
        if (PairRegex().Match(typed ?? "") is not { Success: true } found)
        {
            read.Refuse(field, $"Write the {name} as two numbers of the rulers, across and down: 120,640.");
            return null;
        }

        var (x, y) = (Number(found.Groups["x"].Value), Number(found.Groups["y"].Value));
        if (x <= b.WidthPx && y <= b.HeightPx) return (x, y);
        read.Refuse(field, string.Create(CultureInfo.InvariantCulture, $"The {name} lies outside the picture, which ends at {b.WidthPx} across and {b.HeightPx} down."));
        return null;
    }

    private static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string Pair(double x, double y) => string.Create(CultureInfo.InvariantCulture, $"{x:0.##},{y:0.##}");
}
