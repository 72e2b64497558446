using System.Globalization;
using System.Net;
using System.Text;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>The U-tube gauge as it stood at the start, and as it stands today beside it, to the same scale: two columns, the level of
/// each, and the difference between them. Plain shapes in the page's own roles.</summary>
public sealed record GaugeDrawing(double? StartPa, double? TodayPa)
{
    private const double Top = 30, Bottom = 210, Middle = 120, Tube = 26, Most = 70;

    public bool HasToday => TodayPa is not null;
    public double Width => HasToday ? 420 : 220;
    public const double Height = 262;

    /// <summary>One gauge: where it is drawn and what it shows.</summary>
    public sealed record Column(double X, string Name, double Pa, double LeftY, double RightY)
    {
        public string Reading => $"{Measures.GaugePressure.Show(Pa)}";
    }

    public IEnumerable<Column> Columns()
    {
        var scale = Most / Math.Max(Math.Max(StartPa ?? 0, TodayPa ?? 0), 25);
        if (StartPa is { } start) yield return At(40, "At the start", start, scale);
        if (TodayPa is { } today) yield return At(StartPa is null ? 40 : 240, "Today", today, scale);
    }

    /// <summary>Half the difference down on the open side, half of it up on the side of the pipe.</summary>
    private static Column At(double x, string name, double pa, double scale) => new(x, name, pa, Middle + pa * scale / 2 + 20, Middle - pa * scale / 2 + 20);

    public string Words => string.Join(" ", Columns().Select(c => $"{c.Name} the two columns stand {c.Reading} apart{(c.Pa < 1 ? ": level" : ", the one on the side of the pipe higher")}."));

    /// <summary>The drawing as SVG for a page: classes only, no style of its own.</summary>
    public string Svg()
    {
        var svg = new StringBuilder($"<svg class=\"drawing gauge\" viewBox=\"0 0 {N(Width)} {N(Height)}\" role=\"img\" aria-label=\"{WebUtility.HtmlEncode(Words)}\">");
        foreach (var c in Columns())
        {
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"fluid\" d=\"{Fluid(c)}\"/><path class=\"ink\" stroke-width=\"2\" d=\"{Glass(c.X)}\"/>")
                .Append(CultureInfo.InvariantCulture, $"<path class=\"soft-line\" stroke-dasharray=\"4 3\" d=\"M{N(c.X - 12)} {N(c.LeftY)} H{N(c.X + 112)} M{N(c.X + 62)} {N(c.RightY)} H{N(c.X + 112)}\"/>")
                .Append(CultureInfo.InvariantCulture, $"<path class=\"pipe\" stroke-width=\"2\" d=\"M{N(c.X + 110)} {N(c.RightY)} V{N(c.LeftY)}\"/>")
                .Append(CultureInfo.InvariantCulture, $"<text x=\"{N(c.X + 117)}\" y=\"{N((c.LeftY + c.RightY) / 2 + 5)}\">{WebUtility.HtmlEncode(c.Reading)}</text><text x=\"{N(c.X)}\" y=\"20\">{c.Name}</text>");
        }

        return svg.Append("</svg>").ToString();
    }

    private static string N(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    private const double Inner = 48, Outer = Inner + 2 * Tube;

    private static string Glass(double x) =>
        $"M{N(x)} {N(Top)} V{N(Bottom)} a{N(Outer / 2)} 36 0 0 0 {N(Outer)} 0 V{N(Top)} M{N(x + Tube)} {N(Top)} V{N(Bottom)} a{N(Inner / 2)} 14 0 0 0 {N(Inner)} 0 V{N(Top)}";

    private static string Fluid(Column c) =>
        $"M{N(c.X)} {N(c.LeftY)} V{N(Bottom)} a{N(Outer / 2)} 36 0 0 0 {N(Outer)} 0 V{N(c.RightY)} h-{N(Tube)} V{N(Bottom)} a{N(Inner / 2)} 14 0 0 1 -{N(Inner)} 0 V{N(c.LeftY)} z";
}
