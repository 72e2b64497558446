using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Service;

/// <summary>Writes down what was found and done on a service call, and changes the parts that were changed.</summary>
public static class SettleCall
{
    public sealed record Outcome(Cause Found, string Done, DateOnly On, Cover Cover)
    {
        public double? GaugeAfterPa { get; init; }

        /// <summary>A new fan from the catalogue; null: the old one stays.</summary>
        public Fan? NewFan { get; init; }
        public string NewFanSerial { get; init; } = "";

        /// <summary>A new battery in the alarm on that day.</summary>
        public bool NewBattery { get; init; }

        /// <summary>The gauge reading after the visit becomes the one later looks are held against.</summary>
        public bool NewStartUp { get; init; }
    }

    /// <summary>Writes the outcome, to be saved by the caller; or says why not.</summary>
    public static async Task<IReadOnlyList<Refusal>> WriteAsync(OfficeDb db, ServiceCall call, Outcome o, DateOnly askedOn, DateOnly today, string by)
    {
        var system = await db.Systems.Include(s => s.Components).FirstOrDefaultAsync(s => s.Id == call.InstalledSystemId);
        var refusals = Check(call, o, system, askedOn, today).ToList();
        if (refusals.Count > 0) return refusals;
        (call.State, call.Found, call.Done, call.SettledOn, call.SettledBy) = (CallState.Settled, o.Found, o.Done, o.On, by);
        (call.Cover, call.GaugeAfterPa) = (o.Cover, o.GaugeAfterPa);
        if (system is null) return refusals;
        if (o.NewFan is { } fan) SwapFan(system, fan, o);
        if (o.NewBattery)
            foreach (var alarm in system.Components.Where(c => c.Kind == ComponentKind.Alarm && c.RemovedOn is null)) alarm.BatteryFittedOn = o.On;
        if (o is { NewStartUp: true, GaugeAfterPa: { } pa }) (system.StartUpGaugePa, system.StartUpGaugeAsEntered) = (pa, Measures.GaugePressure.Show(pa));
        return refusals;
    }

    /// <summary>The old fan stays on record with the day it was taken out.</summary>
    private static void SwapFan(InstalledSystem system, Fan fan, Outcome o)
    {
        foreach (var old in system.Components.Where(c => c.Kind == ComponentKind.Fan && c.RemovedOn is null)) old.RemovedOn = o.On;
        system.Components.Add(new SystemComponent { Kind = ComponentKind.Fan, Model = fan.Model, FanId = fan.Id, Serial = o.NewFanSerial, FittedOn = o.On, WarrantyUntil = o.On.AddYears(fan.WarrantyYears) });
    }

    private static IEnumerable<Refusal> Check(ServiceCall call, Outcome o, InstalledSystem? system, DateOnly askedOn, DateOnly today)
    {
        if (call.State == CallState.CalledOff) yield return new("", $"Call {call.Number} was called off. Take that back first.");
        if (o.Done.Length == 0) yield return new(nameof(Outcome.Done), "Write what was found and done.");
        if (o.On > today) yield return new(nameof(Outcome.On), $"{HouseTime.Show(o.On)} has not come yet; today is {HouseTime.Show(today)}.");
        if (o.On < askedOn) yield return new(nameof(Outcome.On), $"The call came on {HouseTime.Show(askedOn)}; it cannot have been settled before.");
        if (system is null && (o.NewFan is not null || o.NewBattery || o.NewStartUp)) yield return new("", "No system is on record for this call; record what was built on sheet 5 first, then its parts can be changed.");
        if (o.NewBattery && system is not null && system.Components.All(c => c.Kind != ComponentKind.Alarm || c.RemovedOn is not null))
            yield return new(nameof(Outcome.NewBattery), "No alarm is on record for this system; add it on the as-built first.");
        if (o is { NewStartUp: true, GaugeAfterPa: null }) yield return new(nameof(Outcome.GaugeAfterPa), "Write the gauge reading after the visit; it is to become the new start-up reading.");
        if (o.Found == Cause.Backdraft && system is { LeftRunning: true })
            yield return new(nameof(Outcome.Found), $"Fumes were drawn back: record the failed backdraft check on the as-built and that the system is off, then settle this call. {Commission.BackdraftDoThis}");
    }

    /// <summary>Calls it off, or takes that back.</summary>
    public static IReadOnlyList<Refusal> CallOff(ServiceCall call, string because)
    {
        if (call.State == CallState.Settled) return [new("", $"Call {call.Number} is settled; it cannot be called off.")];
        if (because.Length == 0) return [new(nameof(ServiceCall.CalledOffBecause), "Write why nobody needs to come.")];
        (call.State, call.CalledOffBecause) = (CallState.CalledOff, because);
        return [];
    }

    public static void TakeBack(ServiceCall call) => (call.State, call.CalledOffBecause, call.Found) = (CallState.Open, "", null);
}
