using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>Runs days of weather through an outdoor run.</summary>
internal static class SeasonRunner
{
    private const int StepsPerDay = 4;
    private const double StepSeconds = 86_400.0 / StepsPerDay;

    // Mean of a sine over the quarters centred on its trough, its rise, its crest and its fall: ±2√2/π.
    private static readonly double[] Swing = [-0.900316, 0, 0.900316, 0];

    public static IceSeason Run(RunMarch march, ClosingMouth mouth, IReadOnlyList<WeatherDay> weather, double boreM)
    {
        march.ClearIce();
        var days = new List<IceDay>(weather.Count);
        var tally = new Tally();
        foreach (var day in weather)
        {
            var (drained, frost) = RunDay(march, mouth, day, tally);
            days.Add(Close(march, mouth, day, boreM, tally.NarrowestToday, drained, frost));
        }
        return new IceSeason
        {
            Days = days,
            AtRiskDays = tally.AtRisk,
            ShutDays = tally.Shut,
            IcyDays = days.Count(day => day.ThickestIceM >= IceSeason.IcyM),
            DaysUntilHalfClosed = tally.HalfAtStep / (double?)StepsPerDay,
            DaysUntilShut = tally.ShutAtStep / (double?)StepsPerDay,
            IceAtEndM = [.. Enumerable.Range(0, march.Count).Select(cell => Thickness(march.OpenShareAt(cell), boreM))],
        };
    }

    public static int AtRiskDays(RunMarch march, ClosingMouth mouth, IReadOnlyList<WeatherDay> weather)
    {
        march.ClearIce();
        var tally = new Tally();
        for (var day = 0; day < weather.Count; day++) RunDay(march, mouth, weather[day], tally);
        return tally.AtRisk;
    }

    /// <summary>Narrowest open share of a season; the search ends early once it falls below a limit.</summary>
    public static double NarrowestOpenShare(RunMarch march, ClosingMouth mouth, IReadOnlyList<WeatherDay> weather, double limit)
    {
        march.ClearIce();
        var tally = new Tally();
        var narrowest = 1.0;
        for (var day = 0; day < weather.Count && narrowest >= limit; day++)
        {
            RunDay(march, mouth, weather[day], tally);
            narrowest = Math.Min(narrowest, tally.NarrowestToday);
        }
        return narrowest;
    }

    private static (double DrainedKg, double FrostKg) RunDay(RunMarch march, ClosingMouth mouth, WeatherDay day, Tally tally)
    {
        var (drained, frost) = (0.0, 0.0);
        tally.StartDay();
        foreach (var swing in Swing)
        {
            march.March(mouth.FlowM3PerS(march.NarrowestOpenShare()), day.MeanC + swing * (day.MaxC - day.MinC) / 2);
            for (var cell = 0; cell < march.Count; cell++)
            {
                var melt = Math.Min(march.MeltKgPerS[cell] * StepSeconds, march.IceKgPerM[cell] * march.CellM[cell]);
                drained += march.DrainKgPerS[cell] * StepSeconds + melt;
                frost += march.FrostKgPerS[cell] * StepSeconds;
            }
            march.Grow(StepSeconds);
            tally.Step(march.NarrowestOpenShare());
        }
        tally.EndDay();
        return (drained, frost);
    }

    private static IceDay Close(RunMarch march, ClosingMouth mouth, WeatherDay day, double boreM, double narrowest, double drained, double frost) => new()
    {
        Day = day.Day,
        MinC = day.MinC,
        MaxC = day.MaxC,
        ThickestIceM = Thickness(march.NarrowestOpenShare(), boreM),
        MouthIceM = Thickness(march.OpenShareAt(march.Count - 1), boreM),
        NarrowestOpenShare = narrowest,
        DrainedKg = drained,
        FrostKg = frost,
        GaugePa = mouth.GaugePa(march.NarrowestOpenShare()),
    };

    private static double Thickness(double openShare, double boreM) => boreM / 2 * (1 - Math.Sqrt(openShare));

    private sealed class Tally
    {
        private int step;

        public int AtRisk { get; private set; }
        public int Shut { get; private set; }
        public int? HalfAtStep { get; private set; }
        public int? ShutAtStep { get; private set; }
        public double NarrowestToday { get; private set; }

        public void StartDay() => NarrowestToday = 1;

        public void Step(double openShare)
        {
            step++;
            NarrowestToday = Math.Min(NarrowestToday, openShare);
            if (openShare < IceSeason.AtRiskOpenShare) HalfAtStep ??= step;
            if (openShare <= RunMarch.ShutOpenShare + 1e-9) ShutAtStep ??= step;
        }

        public void EndDay()
        {
            if (NarrowestToday < IceSeason.AtRiskOpenShare) AtRisk++;
            if (NarrowestToday <= RunMarch.ShutOpenShare + 1e-9) Shut++;
        }
    }
}
