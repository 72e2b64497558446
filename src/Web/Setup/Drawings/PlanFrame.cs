using System.Globalization;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>Where metres of the plan come to lie on the drawing.</summary>
internal sealed class PlanFrame
{
    public const double Width = 480;
    public const double Margin = 36;
    private const double Tallest = 600;
    private static readonly PlanPoint[] Blank = [new(0, 0), new(12.192, 9.144)];

    public PlanFrame(IReadOnlyList<PlanPoint> shown, double spareM)
    {
        var all = shown.Count > 0 ? shown : Blank;
        (LeftM, LowM) = (all.Min(p => p.XM) - spareM, all.Min(p => p.YM) - spareM);
        (RightM, HighM) = (all.Max(p => p.XM) + spareM, all.Max(p => p.YM) + spareM);
        Scale = Math.Min((Width - 2 * Margin) / Math.Max(1, RightM - LeftM), (Tallest - 2 * Margin) / Math.Max(1, HighM - LowM));
        Height = (HighM - LowM) * Scale + 2 * Margin;
        OriginX = (Width - (RightM - LeftM) * Scale) / 2 - LeftM * Scale;
        OriginY = Margin + HighM * Scale;
    }

    public double LeftM { get; }
    public double LowM { get; }
    public double RightM { get; }
    public double HighM { get; }
    public double Scale { get; }
    public double Height { get; }

    /// <summary>Where the plan's 0,0 lies on the drawing.</summary>
    public double OriginX { get; }
    public double OriginY { get; }

    public double X(double metres) => OriginX + metres * Scale;

    public double Y(double metres) => OriginY - metres * Scale;

    public string Path(IEnumerable<PlanPoint> places, bool closed) =>
        "M" + string.Join('L', places.Select(p => $"{Px(X(p.XM))} {Px(Y(p.YM))}")) + (closed ? "Z" : "");

    public static string Px(double value) => Math.Round(value, 1, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture);
}
