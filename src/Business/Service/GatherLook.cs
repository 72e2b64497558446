using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Business.Service;

/// <summary>Gathers what the records know of a system for a look at it. One statement.</summary>
public static class GatherLook
{
    /// <summary>A look at a system with nothing seen yet.</summary>
    public static async Task<Look> OfAsync(OfficeDb db, int? systemId, DateOnly day)
    {
        var s = await db.Systems.AsNoTracking().Where(x => x.Id == systemId).Select(x => new
        {
            x.StartUpGaugePa,
            x.LeftRunning,
            Report = db.Designs.Where(d => d.Id == x.SuctionDesignId).Select(d => d.ReportJson).FirstOrDefault(),
            Cable = x.Components.Any(c => c.Kind == ComponentKind.HeatCable && c.RemovedOn == null),
            Alarm = x.Components.Where(c => c.Kind == ComponentKind.Alarm && c.RemovedOn == null).OrderByDescending(c => c.Id).Select(c => new { c.BatteryFittedOn }).FirstOrDefault(),
            Fan = x.Components.Where(c => c.Kind == ComponentKind.Fan && c.RemovedOn == null).OrderByDescending(c => c.Id)
                .Select(c => new { c.FittedOn, Life = db.Fans.Where(f => f.Id == c.FanId).Select(f => (int?)f.ExpectedLifeYears).FirstOrDefault() }).FirstOrDefault(),
            House = db.Houses.Where(h => h.Id == x.HouseId).Select(h => new { h.Sump, Natural = h.Appliances.Any(a => a.Draft == Draft.Natural) }).First(),
            Months = db.Company.Select(c => c.AlarmBatteryMonths).FirstOrDefault(),
        }).AsSingleQuery().FirstOrDefaultAsync();
        return s is null ? new Look(Sign.Other, day) : new Look(Sign.JustReading, day)
        {
            StartPa = s.StartUpGaugePa, LeftRunning = s.LeftRunning, Winter = ForeseenSuction.WinterOf(s.Report), HasHeatCable = s.Cable, HasAlarm = s.Alarm is not null, BatteryOn = s.Alarm?.BatteryFittedOn, BatteryMonths = s.Months,
            FanFittedOn = s.Fan?.FittedOn, FanLifeYears = s.Fan?.Life, HasSump = s.House.Sump != SumpKind.None, NaturalDraft = s.House.Natural,
        };
    }
}
