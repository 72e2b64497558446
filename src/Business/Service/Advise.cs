using System.Globalization;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Service;

/// <summary>First advice: from what is seen, the start-up reading and the design's winter to likely causes, the likeliest first.
/// The order is common practice, no source; the numbers come from the records.</summary>
public static class Advise
{
    public sealed record Advice(GaugeState Gauge, string GaugeWords, bool Urgent, string Headline, IReadOnlyList<LikelyCause> Causes);

    public static Advice On(Look look)
    {
        var gauge = GaugeToday.Of(look);
        List<LikelyCause> causes = [.. Order(look, gauge).DistinctBy(c => c.Cause).Select(c => new LikelyCause(c.Cause, c.Why, CauseWords.OwnerCheck(c.Cause), CauseWords.FirstCheck(c.Cause), CauseWords.Caution(c.Cause)))];
        return new(gauge, GaugeToday.Words(look), look.Sign == Sign.FumesOrCoAlarm, Headline(look, gauge, causes.Count), causes);
    }

    /// <summary>Whether the gauge says that a system draws which was left switched off.</summary>
    private static bool RunsThoughLeftOff(GaugeState gauge) => gauge is GaugeState.Lower or GaugeState.AboutTheSame or GaugeState.Higher or GaugeState.NothingToCompare;

    private static string Headline(Look look, GaugeState gauge, int causes) => (look.Sign, gauge) switch
    {
        (Sign.FumesOrCoAlarm, _) => "Go outside now, everybody, and call the emergency number from there.",
        _ when !look.LeftRunning => RunsThoughLeftOff(gauge) ? "This system was left switched off, and the gauge says that it draws." : "This system was left switched off on purpose. Leave it off.",
        (_, GaugeState.Level) => "The system is not drawing at this moment.",
        (Sign.FanSilent, _) => "The fan may not be running.",
        (_, GaugeState.Lower) => "The system draws less than at the start.",
        (_, GaugeState.Higher) => "Something holds the air back before the fan.",
        (Sign.AlarmBeepsNowAndThen, _) => "A short beep every few minutes is mostly the battery.",
        (Sign.JustReading, GaugeState.AboutTheSame) => "All is well: the gauge stands as it did at the start.",
        (_, GaugeState.AboutTheSame) => "The gauge stands as it did at the start: the fan draws.",
        _ => causes == 0 ? "Read the gauge and write it here; then more can be said." : "Here is what it may be.",
    };

    private static IEnumerable<(Cause Cause, string Why)> Order(Look look, GaugeState gauge)
    {
        if (!look.LeftRunning && look.Sign != Sign.FumesOrCoAlarm)
        {
            // Advice that ends in switching it on would be dangerous here.
            yield return (Cause.Backdraft, RunsThoughLeftOff(gauge)
                ? "It was left off because fumes came back into the house, or nobody had made sure that they do not. Switch it off at its switch, open the windows and call."
                : "It was left off because fumes came back into the house, or nobody had made sure that they do not. A level gauge, a silent fan and an alarm that sounds come from that. Do not switch it on; ask when it will be put right.");
            yield break;
        }

        foreach (var c in BySign(look, gauge)) yield return c;
        foreach (var c in gauge switch
        {
            GaugeState.Level => LevelGauge(look),
            GaugeState.Lower => LowerGauge(look),
            GaugeState.Higher => HigherGauge(look),
            _ => [],
        }) yield return c;
    }

    private static IEnumerable<(Cause Cause, string Why)> BySign(Look look, GaugeState gauge)
    {
        switch (look.Sign)
        {
            case Sign.FumesOrCoAlarm:
                yield return (Cause.Backdraft, look.NaturalDraft
                    ? "This house has an appliance that draws by its chimney alone; a suction fan can pull its fumes back."
                    : "A suction fan can pull fumes back from anything that burns in the house.");
                break;
            case Sign.AlarmBeepsNowAndThen:
                yield return (Cause.AlarmBattery, Battery(look));
                yield return (Cause.AlarmFault, gauge == GaugeState.AboutTheSame ? "The gauge stands as at the start, so the fan draws and the alarm speaks of itself." : "If it still beeps with a new battery, it is the alarm.");
                break;
            case Sign.AlarmSounds when gauge == GaugeState.AboutTheSame:
                yield return (Cause.AlarmFault, "The gauge stands as at the start, so the fan draws; the alarm's tube or sensor is the likelier fault.");
                break;
            case Sign.AlarmSounds or Sign.FanSilent when gauge is GaugeState.NotRead or GaugeState.NothingToCompare:
                foreach (var c in LevelGauge(look)) yield return c;
                break;
            case Sign.FanSilent when gauge == GaugeState.AboutTheSame:
                yield return (Cause.NothingWrong, "The gauge stands as at the start: the fan draws, only more quietly than you expected.");
                break;
            case Sign.FanLoud:
                if (look.MayBeIce && look.OutdoorC is not null) yield return (Cause.IceAtMouth, Ice(look, "Pieces of ice falling onto the fan's wheel make it rattle."));
                yield return (Cause.FanBearing, FanAge(look, "A grinding or rising hum is mostly the bearing; a buzz is mostly the mount."));
                yield return (Cause.LoosePart, "A pipe that touches wood carries every hum into the house.");
                break;
            case Sign.WaterHeard:
                yield return (Cause.WaterInPipe, "Damp soil air leaves water in a cold pipe; it should run back to the slab and gurgles where it cannot.");
                yield return (Cause.SoilWetOrBlocked, "High ground water or a sump pump that stands still brings water to the pit.");
                break;
            case Sign.IceSeen:
                yield return (Cause.IceAtMouth, Ice(look, "Ice is seen."));
                if (look.HasHeatCable) yield return (Cause.HeatCableFailed, "A heat cable was fitted; where it works, no ice grows.");
                break;
            case Sign.PartBroken:
                yield return (Cause.LoosePart, "You see it; a leak before the fan takes the suction away from the slab.");
                break;
            case Sign.RadonHighAgain:
                yield return (Cause.HouseChanged, "Radon that rises while the gauge stands as before mostly comes with a change in the house, or from a part of it the system does not reach.");
                yield return (Cause.LeakInPipeOrSlab, "An opened lid or a new crack lets the suction go.");
                break;
        }
    }

    private static IEnumerable<(Cause Cause, string Why)> LevelGauge(Look look)
    {
        yield return (Cause.FanSwitchedOff, "Level columns mean no suction; a switch or breaker is the commonest reason and the easiest to see.");
        if (look.MayBeIce) yield return (Cause.IceAtMouth, Ice(look, "A mouth frozen shut stops the flow, and the gauge goes level though the fan hums."));
        yield return (Cause.FanFailed, FanAge(look, "If it has current and does not hum, the fan has failed."));
        yield return (Cause.GaugeFault, "If the fan hums and air leaves the mouth, the gauge's tube has slipped off or its fluid is gone.");
    }

    private static IEnumerable<(Cause Cause, string Why)> LowerGauge(Look look)
    {
        if (look.MayBeIce && look.HasHeatCable) yield return (Cause.HeatCableFailed, "A heat cable was fitted against ice; a reading that falls in the cold says it may be off.");
        if (look.MayBeIce) yield return (Cause.IceAtMouth, Ice(look, "Ice that narrows the outdoor pipe lets the gauge fall."));
        yield return (Cause.LeakInPipeOrSlab, $"More air than at the start comes in{(look.HasSump ? "; the sump lid is the first place to look" : "")}.");
        yield return (Cause.FanWeak, FanAge(look, "A fan that ages pulls less."));
        if (!look.MayBeIce) yield return (Cause.MouthBlocked, "A nest or leaves at the mouth hold the air back after the fan, and the gauge falls.");
        yield return (Cause.GaugeFault, "Some fluid lost, or the tube half off.");
    }

    private static IEnumerable<(Cause Cause, string Why)> HigherGauge(Look look)
    {
        yield return (Cause.WaterInPipe, "Water standing in a low spot before the fan holds the air back: the fan pulls harder on the gauge and the slab gets less.");
        yield return (Cause.SoilWetOrBlocked, $"Wet soil lets less air through{(look.HasSump ? "; a sump that stands high drowns the pit" : "")}.");
        yield return (Cause.GaugeFault, "Fluid refilled, or the gauge no longer upright.");
    }

    private static string Ice(Look look, string first)
    {
        var say = new List<string> { first };
        if (look.OutdoorC is { } c) say.Add($"It is {Measures.Temperature.Show(c)} outdoors{(c <= 0 ? "" : ", above freezing: less likely")}.");
        else say.Add("Say how cold it is outdoors and more can be said.");
        if (look.Winter is not { } w) return string.Join(' ', say);
        say.Add(w.DaysAtRiskHigh < 1
            ? "The design foresaw no day of risk in a usual winter."
            : Say($"The design foresaw {w.DaysAtRisk:0} days at risk in a winter ({w.DaysAtRiskLow:0} to {w.DaysAtRiskHigh:0})."));
        if (OpenShare(look) is { } at) say.Add(Say($"A reading of {GaugeToday.Show(look.GaugePa)} fits a pipe of which {100 * at.OpenShare:0} % is still open, as foreseen after {at.Days} days at the design temperature."));
        else if (w.DaysUntilHalfClosed is { } half) say.Add(Say($"In a cold spell at the design temperature it is half closed after {half:0.#} days."));
        return string.Join(' ', say);
    }

    /// <summary>The day of the foreseen cold spell on which the gauge, brought to this system's own start-up reading, stood nearest to today's.</summary>
    private static (int Days, double OpenShare)? OpenShare(Look look)
    {
        if (look is not { GaugePa: { } read, StartPa: { } start and > 0, Winter: { ManometerOpenPa: { } open and > 0 } w }) return null;
        var days = w.ColdSpell.Select((d, i) => (Days: i + 1, d.OpenShare, Pa: d.ManometerPa / open * start)).Where(d => d.Pa is not null).ToList();
        if (days.Count == 0 || days.Min(d => d.Pa) > read + 0.05 * start) return null;
        var (n, share, _) = days.MinBy(d => Math.Abs(d.Pa!.Value - read));
        return share < 0.97 ? (n, share) : null;
    }

    private static string Battery(Look look)
    {
        if (look.BatteryOn is not { } on) return look.HasAlarm ? "When its battery was last changed is not on record." : "No alarm is on record for this system; a smoke or carbon monoxide alarm beeps in the same way.";
        var months = Math.Max(0, (look.Day.Year - on.Year) * 12 + look.Day.Month - on.Month - (look.Day.Day < on.Day ? 1 : 0));
        return $"Its battery is of {HouseTime.Show(on)}, {months switch { 0 => "less than a month", 1 => "one month", _ => $"{months} months" }} old; it should be changed every {look.BatteryMonths} months.";
    }

    private static string FanAge(Look look, string first)
    {
        if (look.FanFittedOn is not { } on) return first;
        var years = (look.Day.DayNumber - on.DayNumber) / 365.25;
        return Say($"{first} It was fitted on {HouseTime.Show(on)}, {years:0.#} years ago{(look.FanLifeYears is { } life ? $"; the catalogue expects {life}" : "")}.");
    }

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
