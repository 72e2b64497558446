using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.Measures;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>What was built, as it is typed on the day.</summary>
public sealed class AsBuiltForm
{
    public string? TagNumber { get; set; }
    public ClockFields FanOn { get; set; } = new();
    public string? SystemType { get; set; }
    public string? SuctionPoints { get; set; }
    public string? PipeSize { get; set; }
    public string? FanPlace { get; set; }
    public string? FanId { get; set; }
    public string? OtherFan { get; set; }
    public string? FanSerial { get; set; }
    public string? StartUpGauge { get; set; }
    public string? StartUpWatts { get; set; }
    public string? Outdoor { get; set; }
    public string? Gauge { get; set; }
    public string? Alarm { get; set; }
    public string? AlarmBatteryOn { get; set; }
    public string? Instrument { get; set; }
    public bool NothingDraws { get; set; }
    public string? BackdraftNotes { get; set; }
    public bool LeftRunning { get; set; } = true;
    public string? Price { get; set; }
    public string? DifferencesFromDesign { get; set; }
    public string? SecondBranch { get; set; }
    public string? TakenOverParts { get; set; }
    public string? TakenOverCredit { get; set; }
    public string? Electrician { get; set; }
    public string? ElectricianLicence { get; set; }
    public string? WiringSignedOn { get; set; }
    public List<PartRow> Parts { get; set; } = [];
    public List<ReadingRow> Readings { get; set; } = [];
    public List<DraftRow> Drafts { get; set; } = [];

    /// <summary>Said when a hole without a minus sign is no slip.</summary>
    public bool SlabPushes { get; set; }

    public static readonly (string Value, string Words)[] DraftResults = [("", "not checked"), (nameof(DraftResult.Draws), "draws"), (nameof(DraftResult.Spills), "spills")];

    public sealed class PartRow
    {
        public string? Kind { get; set; }
        public string? Model { get; set; }
        public string? Serial { get; set; }
    }

    public sealed class ReadingRow
    {
        public string? Hole { get; set; }
        public string? Shown { get; set; }

        /// <summary>With the fan off.</summary>
        public string? Off { get; set; }
    }

    public sealed class DraftRow
    {
        public string? Appliance { get; set; }
        public string? Result { get; set; }
        public string? Minutes { get; set; }
        public string? Notes { get; set; }
        public bool IsEmpty => string.IsNullOrWhiteSpace(Appliance + Result + Minutes + Notes);
    }

    public AsBuilt? Read(FormReading read, AsBuiltSetting at, UnitSystem units)
    {
        var tag = Commission.TagAsKept(read.Text(TagNumber, nameof(TagNumber), "tag number", needed: true, most: 60));
        var fanOn = FanOn.Read(read, nameof(FanOn), "the fan's start", at.Zone, needed: true);
        var day = HouseTime.DayOf(fanOn ?? default, at.Zone);
        var built = new AsBuilt
        {
            HouseId = at.HouseId, JobId = at.JobId, SuctionDesignId = at.DesignId, TagNumber = tag, ActivatedAtUtc = fanOn ?? default, CompletedOn = day,
            SystemType = read.Text(SystemType, nameof(SystemType), "kind of system", needed: true, most: 100),
            SuctionPoints = read.Whole(SuctionPoints, nameof(SuctionPoints), "number of suction points", 1, 30, needed: true) ?? 1,
            PipeSize = read.Text(PipeSize, nameof(PipeSize), "pipe size", needed: true, most: 20),
            FanPlace = read.Text(FanPlace, nameof(FanPlace), "fan's place", needed: true, most: 100),
            StartUpGaugePa = read.Measure(GaugePressure, StartUpGauge, nameof(StartUpGauge), needed: true),
            StartUpGaugeAsEntered = AsEntered(StartUpGauge, GaugePressure.UnitIn(units)),
            StartUpWatts = read.Measure(Power, StartUpWatts, nameof(StartUpWatts)),
            OutdoorC = read.Measure(Temperature, Outdoor, nameof(Outdoor)),
            Instrument = read.Text(Instrument, nameof(Instrument), "instrument", most: 120), NothingDraws = NothingDraws, Drafts = [.. ReadDrafts(read)],
            BackdraftNotes = read.Text(BackdraftNotes, nameof(BackdraftNotes), "notes", most: 2000),
            LeftRunning = LeftRunning,
            Price = at.SeesPrices ? read.Money(Price, nameof(Price), "price") ?? Money.Zero : at.IsNew ? at.AcceptedTotal : null,
            DifferencesFromDesign = read.Text(DifferencesFromDesign, nameof(DifferencesFromDesign), "differences", most: 4000),
            SecondBranch = read.Text(SecondBranch, nameof(SecondBranch), "provision", most: 500), TakenOverParts = read.Text(TakenOverParts, nameof(TakenOverParts), "parts", most: 2000),
            TakenOverCredit = at.SeesPrices ? read.Money(TakenOverCredit, nameof(TakenOverCredit), "credit") ?? Money.Zero : null,
            Electrician = read.Text(Electrician, nameof(Electrician), "electrician", most: 120), ElectricianLicence = read.Text(ElectricianLicence, nameof(ElectricianLicence), "licence number", most: 60),
            WiringSignedOn = read.Day(WiringSignedOn, nameof(WiringSignedOn), "day of the sign-off"),
            Parts = [.. ReadParts(read, at, day)],
            Readings = [.. ReadReadings(read, at)],
        };
        return fanOn is null ? null : built;
    }

    private static string AsEntered(string? typed, string unit) => typed?.Trim() is { Length: > 0 } words ? char.IsAsciiDigit(words[^1]) ? $"{words} {unit}" : words : "";

    private IEnumerable<FittedPart> ReadParts(FormReading read, AsBuiltSetting at, DateOnly day)
    {
        var fan = at.Fans.FirstOrDefault(f => $"{f.Id}" == FanId);
        var other = read.Text(OtherFan, nameof(OtherFan), "fan's model", most: 100);
        var serial = read.Text(FanSerial, nameof(FanSerial), "serial number", most: 100);
        if (fan is not null) yield return new(ComponentKind.Fan, fan.Model, serial) { FanId = fan.Id, WarrantyUntil = day == default ? null : day.AddYears(fan.WarrantyYears) };
        else if (other.Length > 0) yield return new(ComponentKind.Fan, other, serial);
        var gauge = read.Text(Gauge, nameof(Gauge), "gauge", needed: true, most: 100);
        if (gauge.Length > 0) yield return new(ComponentKind.Gauge, gauge);
        var alarm = read.Text(Alarm, nameof(Alarm), "alarm", most: 100);
        var battery = read.Day(AlarmBatteryOn, nameof(AlarmBatteryOn), "day of the battery");
        if (alarm.Length > 0) yield return new(ComponentKind.Alarm, alarm) { BatteryFittedOn = battery };
        else if (battery is not null) read.Refuse(nameof(Alarm), "Write the alarm whose battery this is.");
        for (var i = 0; i < Parts.Count; i++)
        {
            var model = read.Text(Parts[i].Model, $"Parts[{i}].Model", "part", most: 100);
            if (model.Length == 0) continue;
            yield return new(Enum.TryParse<ComponentKind>(Parts[i].Kind, out var kind) && kind > ComponentKind.Alarm ? kind : ComponentKind.Other, model, read.Text(Parts[i].Serial, $"Parts[{i}].Serial", "serial number", most: 100));
        }
    }

    private IEnumerable<CheckedDraft> ReadDrafts(FormReading read)
    {
        for (var i = 0; i < Drafts.Count; i++)
        {
            var row = Drafts[i];
            if (row.IsEmpty) continue;
            var appliance = read.Text(row.Appliance, $"Drafts[{i}].Appliance", "appliance that was checked", needed: true, most: 120);
            yield return new(appliance, Enum.TryParse<DraftResult>(row.Result, out var result) ? result : DraftResult.NotChecked,
                read.Number(row.Minutes, $"Drafts[{i}].Minutes", "minutes it spilled", 0, 120), read.Text(row.Notes, $"Drafts[{i}].Notes", "note", most: 300));
        }
    }

    private IEnumerable<FinalReading> ReadReadings(FormReading read, AsBuiltSetting at)
    {
        var seen = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < Readings.Count; i++)
        {
            var hole = read.Text(Readings[i].Hole, $"Readings[{i}].Hole", "test hole", most: 40);
            var shown = read.Measure(Pressure, Readings[i].Shown, $"Readings[{i}].Shown");
            var off = read.Measure(Pressure, Readings[i].Off, $"Readings[{i}].Off");
            if (off is not null && shown is null && string.IsNullOrWhiteSpace(Readings[i].Shown)) read.Refuse($"Readings[{i}].Shown", "Write what the gauge shows with the fan on, too.");
            if (shown is not { } pa) continue;
            if (hole.Length == 0) read.Refuse($"Readings[{i}].Hole", "Write which test hole this reading is from.");
            else if (!seen.Add(hole)) read.Refuse($"Readings[{i}].Hole", $"Test hole {hole} stands here twice.");
            if (pa > 0 && !SlabPushes)
                read.Refuse($"Readings[{i}].Shown", $"{hole} reads {Readings[i].Shown!.Trim()} without a minus: that is pressure from the slab into the house. Write suction with a minus sign, as the gauge shows it, or tick that the slab really pushes.");
            yield return new(hole, pa == 0 ? 0 : -pa, at.Foreseen.HolesPa.TryGetValue(hole, out var predicted) ? predicted : null) { FanOffPa = off is 0 ? 0 : -off };
        }
    }
}
