using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using static MitigationOffice.Business.Data.Measures;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A system on record as the form holds it.</summary>
public static class AsBuiltRecord
{
    public static AsBuiltForm Form(InstalledSystem s, TimeZoneInfo zone, UnitSystem units)
    {
        var standing = s.Components.Where(c => c.RemovedOn is null).OrderBy(c => c.Id).ToList();
        var fan = standing.Find(c => c.Kind == ComponentKind.Fan);
        var alarm = standing.Find(c => c.Kind == ComponentKind.Alarm);
        return new()
        {
            TagNumber = s.TagNumber, FanOn = ClockFields.Of(s.ActivatedAtUtc, zone), SystemType = s.SystemType, SuctionPoints = TypedNumbers.Plain((decimal)s.SuctionPoints),
            PipeSize = s.PipeSize, FanPlace = s.FanPlace, FanId = $"{fan?.FanId}", OtherFan = fan?.FanId is null ? fan?.Model : "", FanSerial = fan?.Serial,
            StartUpGauge = s.StartUpGaugeAsEntered.Length > 0 ? s.StartUpGaugeAsEntered : GaugePressure.Number(s.StartUpGaugePa, units),
            StartUpWatts = Power.Number(s.StartUpWatts, units), Outdoor = Temperature.Number(s.OutdoorC, units),
            Gauge = standing.Find(c => c.Kind == ComponentKind.Gauge)?.Model, Alarm = alarm?.Model, AlarmBatteryOn = TypedNumbers.Plain(alarm?.BatteryFittedOn),
            Instrument = s.Instrument, NothingDraws = s.Backdraft == BackdraftCheck.NothingToCheck, BackdraftNotes = s.BackdraftNotes, LeftRunning = s.LeftRunning, Price = TypedNumbers.Plain(s.Price),
            DifferencesFromDesign = s.DifferencesFromDesign, SecondBranch = s.SecondBranch, TakenOverParts = s.TakenOverParts, TakenOverCredit = s.TakenOverCredit == Money.Zero ? "" : TypedNumbers.Plain(s.TakenOverCredit),
            Electrician = s.Electrician, ElectricianLicence = s.ElectricianLicence, WiringSignedOn = TypedNumbers.Plain(s.WiringSignedOn),
            Parts = [.. standing.Where(c => c.Kind is not (ComponentKind.Fan or ComponentKind.Gauge or ComponentKind.Alarm))
                .Select(c => new AsBuiltForm.PartRow { Kind = c.Kind.ToString(), Model = c.Model, Serial = c.Serial })],
            Readings = [.. s.FinalSuctions.OrderBy(f => f.Id).Select(f => new AsBuiltForm.ReadingRow { Hole = f.HoleLabel, Shown = Pressure.Number(-f.SuctionPa, units), Off = f.FanOffPa is { } off ? Pressure.Number(-off, units) : null })],
            Drafts = [.. s.DraftChecks.OrderBy(c => c.Id).Select(c => new AsBuiltForm.DraftRow { Appliance = c.Appliance, Result = c.Result == DraftResult.NotChecked ? "" : c.Result.ToString(), Minutes = TypedNumbers.Plain(c.SpilledMinutes), Notes = c.Notes })],
            SlabPushes = s.FinalSuctions.Exists(f => f.SuctionPa < 0),
        };
    }
}
