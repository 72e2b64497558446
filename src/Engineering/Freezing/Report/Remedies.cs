using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Engineering.Freezing;

/// <summary>What keeps the run open: cable, insulation, bypass.</summary>
internal static class Remedies
{
    public const double FeetPerM = 1 / 0.3048;
    private const double MostCableWPerM = 200;
    private const double MostInsulationM = 0.15;

    public static HeatCable? Cable(FreezeInput input, IReadOnlyList<IReadOnlyList<WeatherDay>> winters)
    {
        var march = new RunMarch(input.Run, input.Assumptions);
        if (ColdestWall(march, input, 0) >= 0) return null;
        var mouth = new ClosingMouth(input.System, input.Run.FlowM3PerS, input.Run.BoreM);
        var needed = Least(0, MostCableWPerM, watts => ColdestWall(march, input, watts) >= 0) / FeetPerM;
        var holding = Least(0, needed, size => HoldsOpen(march, input, mouth, winters, size));
        double? chosen = input.CableSizesWPerFt.Where(size => size >= holding).Select(size => (double?)size).Min();
        var power = (chosen ?? needed) * input.Run.LengthM * FeetPerM;
        var hours = winters.Average(winter => winter.Sum(day => HoursBelow(day, input.CableOnBelowC)));
        var energy = power * hours / 1000;
        return new HeatCable
        {
            WallWarmWPerFt = needed,
            HoldsOpenWPerFt = holding,
            ChosenWPerFt = chosen,
            LengthM = input.Run.LengthM,
            PowerW = power,
            HoursOn = hours,
            KWhPerWinter = energy,
            DollarsPerWinter = energy * input.DollarsPerKWh,
        };
    }

    public static InsulationInstead? Insulation(FreezeInput input)
    {
        if (ColdestWall(Wrapped(input, 0), input, 0) >= 0) return null;
        var enough = ColdestWall(Wrapped(input, MostInsulationM), input, 0) >= 0;
        var thickness = enough
            ? Least(0, MostInsulationM, metres => ColdestWall(Wrapped(input, metres), input, 0) >= 0)
            : MostInsulationM;
        return new InsulationInstead
        {
            Enough = enough,
            ThicknessM = thickness,
            UsR = thickness / input.Run.Pieces[0].InsulationWPerMK / PipeWall.RsiPerUsR,
        };
    }

    public static CondensateBypass Bypass(FreezeInput input, RunProfile january)
    {
        var water = input.Run.FanStandsBeforeRun ? january.BackToFootKgPerDay : 0;
        var needed = water >= input.BypassFromKgPerDay;
        return new CondensateBypass { Needed = needed, ToFanKgPerDay = water, Reason = BypassReason(input, january, water, needed) };
    }

    /// <summary>Hours of a day under a temperature when the day swings as a sine between its lowest and highest.</summary>
    public static double HoursBelow(WeatherDay day, double limitC)
    {
        if (day.MaxC <= limitC) return 24;
        if (day.MinC >= limitC) return 0;
        return 24 * Math.Acos((day.MeanC - limitC) / ((day.MaxC - day.MinC) / 2)) / Math.PI;
    }

    private static string BypassReason(FreezeInput input, RunProfile january, double water, bool needed)
    {
        if (!input.Run.FanStandsBeforeRun) return "The fan stands after the outdoor run, so no water runs back on it.";
        var gallons = water / 3.785;
        var amount = Words.Say($"At the January mean about {gallons:0.0} gallons ({water:0.0} kg) of water a day run back towards the fan");
        if (needed) return amount + "; a condensate bypass leads it round the fan.";
        return january.CondensateKgPerDay - water >= input.BypassFromKgPerDay
            ? amount + "; the rest of the condensate does not run back, so mind where it stands."
            : amount + ", too little to need a bypass.";
    }

    private static double ColdestWall(RunMarch march, FreezeInput input, double cableWPerM)
    {
        march.CableWPerM = cableWPerM;
        march.March(input.Run.FlowM3PerS, input.DesignC);
        return march.ColdestSurfaceC();
    }

    // Cold spell and every winter: the ice never takes more than a quarter of the pipe's area.
    private static bool HoldsOpen(RunMarch march, FreezeInput input, ClosingMouth mouth, IReadOnlyList<IReadOnlyList<WeatherDay>> winters, double wattsPerFt)
    {
        march.CableWPerM = wattsPerFt * FeetPerM;
        return SeasonRunner.NarrowestOpenShare(march, mouth, FreezeForecast.Spell(input), HeatCable.HeldOpenShare) >= HeatCable.HeldOpenShare
            && winters.All(winter => SeasonRunner.NarrowestOpenShare(march, mouth, winter, HeatCable.HeldOpenShare) >= HeatCable.HeldOpenShare);
    }

    private static RunMarch Wrapped(FreezeInput input, double metres)
    {
        var k = input.Run.Pieces[0].InsulationWPerMK;
        var pieces = input.Run.Pieces.Select(piece => piece with { InsulationM = Math.Max(piece.InsulationM, metres), InsulationWPerMK = piece.InsulationM > metres ? piece.InsulationWPerMK : k });
        return new RunMarch(input.Run with { Pieces = [.. pieces] }, input.Assumptions);
    }

    private static double Least(double low, double high, Func<double, bool> enough)
    {
        var narrow = 1e-3 * high;
        while (high - low > narrow)
        {
            var middle = (low + high) / 2;
            if (enough(middle)) high = middle;
            else low = middle;
        }
        return high;
    }
}
