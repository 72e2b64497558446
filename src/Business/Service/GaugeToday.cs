using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Service;

/// <summary>How today's gauge stands against the start-up reading.</summary>
public enum GaugeState
{
    NotRead,
    NothingToCompare,
    Level,
    Lower,
    AboutTheSame,
    Higher,
}

/// <summary>Judges a gauge reading against the one taken at the start. The shares are a house rule, not from a standard.</summary>
public static class GaugeToday
{
    /// <summary>Within a fifth of the start-up reading the gauge is taken as unchanged: common practice, no source.</summary>
    public const double Share = 0.20;

    /// <summary>Below this, or below a tenth of the start, the columns are taken as level, Pa: 0.02 inWC is what an eye tells apart.</summary>
    public const double LevelPa = 5;

    public static GaugeState Of(double? readPa, double? startPa)
    {
        if (readPa is not { } read) return GaugeState.NotRead;
        if (startPa is not > 0) return read <= LevelPa ? GaugeState.Level : GaugeState.NothingToCompare;
        if (read <= Math.Max(LevelPa, 0.1 * startPa.Value) && startPa > LevelPa) return GaugeState.Level;
        return (read / startPa.Value) switch { < 1 - Share => GaugeState.Lower, > 1 + Share => GaugeState.Higher, _ => GaugeState.AboutTheSame };
    }

    /// <summary>What the gauge shows by what was said of it, where no number was read.</summary>
    public static GaugeState Of(Look look) => look.GaugePa is not null ? Of(look.GaugePa, look.StartPa) : look.Sign switch
    {
        Sign.GaugeLevel => GaugeState.Level,
        Sign.GaugeLower => GaugeState.Lower,
        Sign.GaugeHigher => GaugeState.Higher,
        _ => GaugeState.NotRead,
    };

    public static string Words(Look look)
    {
        var (read, start) = (Show(look.GaugePa), Show(look.StartPa));
        return Of(look) switch
        {
            GaugeState.Level => look.StartPa is null ? "The gauge is level." : $"The gauge is level{(look.GaugePa is null ? "" : $" ({read})")}; at the start it stood {start} apart.",
            GaugeState.Lower => look.GaugePa is null ? $"The gauge shows less than the {start} at the start." : $"{read} is {Percent(look)} less than the {start} at the start.",
            GaugeState.Higher => look.GaugePa is null ? $"The gauge shows more than the {start} at the start." : $"{read} is {Percent(look)} more than the {start} at the start.",
            GaugeState.AboutTheSame => $"{read} is about what the gauge showed at the start ({start}).",
            GaugeState.NothingToCompare => $"The gauge shows {read}; no start-up reading is on record to hold it against.",
            _ => "The gauge was not read.",
        };
    }

    internal static string Show(double? pa) => pa is null ? "reading" : Measures.GaugePressure.Show(pa);

    private static string Percent(Look look) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Math.Round(100 * Math.Abs(look.GaugePa!.Value / look.StartPa!.Value - 1), 0, MidpointRounding.AwayFromZero):0} %");
}
