using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.Measures;
using HoleReading = MitigationOffice.Business.Diagnosis.HoleReading;

namespace MitigationOffice.Web.Pages.Diagnosis;

/// <summary>Reads the typed PFE test into its record. Signs: a fan-on reading without a sign is suction; a fan-off reading
/// stands as typed; the pit's suction is taken without its sign.</summary>
public sealed class ReadPfe(PfeForm form, FormReading read, IReadOnlyDictionary<int, string> fans, FloorPlan plan, UnitSystem units)
{
    public void Into(PressureFieldTest test)
    {
        ReadDay(test);
        ReadSuction(test);
        ReadSettings(test);
        ReadHoles(test);
        if (test.TestHoles.Count == 0 && test.Settings.Count == 0) read.Refuse("Settings[0].PitVacuum", "Write at least the suction at the pit for one fan or vacuum.");
    }

    private void ReadDay(PressureFieldTest test)
    {
        test.Day = read.Day(form.Day, nameof(form.Day), "day", needed: true) ?? test.Day;
        test.MeasuredBy = read.Text(form.MeasuredBy, nameof(form.MeasuredBy), "name", most: 120);
        test.Instrument = read.Text(form.Instrument, nameof(form.Instrument), "instrument", most: 120);
        test.OutdoorC = read.Needed(Temperature with { Name = "outdoor temperature" }, form.Outdoor, nameof(form.Outdoor));
        test.IndoorC = read.Needed(Temperature with { Name = "indoor temperature" }, form.Indoor, nameof(form.Indoor));
        test.AppliancesRunning = read.Text(form.AppliancesRunning, nameof(form.AppliancesRunning), "list of appliances", most: 400);
        test.Notes = read.Text(form.Notes, nameof(form.Notes), "note");
    }

    private void ReadSuction(PressureFieldTest test)
    {
        var kept = test.SuctionHoles.OrderBy(s => s.Id).ToList();
        test.SuctionHoles.Clear();
        for (var i = 0; i < form.Suction.Count; i++)
        {
            var row = form.Suction[i];
            if (row.IsEmpty && (i > 0 || form.Suction.Exists(r => !r.IsEmpty))) continue;
            var hole = test.SuctionHoles.Count < kept.Count ? kept[test.SuctionHoles.Count] : new SuctionHole { Label = "" };
            var at = string.Create(CultureInfo.InvariantCulture, $"Suction[{i}]");
            var label = read.Text(row.Label, $"{at}.Label", "name of the suction hole", most: 40);
            hole.Label = label.Length > 0 ? label : string.Create(CultureInfo.InvariantCulture, $"S{i + 1}");
            hole.Place = read.Text(row.Place, $"{at}.Place", "place of the suction hole", most: 200);
            (hole.XM, hole.YM) = OnPlan(row.At, hole.At, $"{at}.At", $"suction hole {hole.Label}");
            if (test.SuctionHoles.Exists(s => string.Equals(s.Label, hole.Label, StringComparison.OrdinalIgnoreCase)))
                read.Refuse($"{at}.Label", $"Two suction holes are called {hole.Label}; give each its own name.");
            test.SuctionHoles.Add(hole);
        }

        if (test.SuctionHoles.Count == 0) test.SuctionHoles.Add(kept.FirstOrDefault() ?? new SuctionHole { Label = "S1" });
    }

    /// <summary>A place on the floor plan; held against the plan where the house has one.</summary>
    private (double? XM, double? YM) OnPlan(string? typed, PlanPoint? stored, string field, string name)
    {
        if (stored is { } same && (typed ?? "").Trim() == PlanText.Show(same, units)) return (same.XM, same.YM);
        var (place, problem) = ReadPlaces.One(typed, name, units);
        if (problem is not null) read.Refuse(field, problem);
        if (place is { } at && !plan.IsEmpty && !plan.Holds(at))
            read.Refuse(field, $"{char.ToUpperInvariant(name[0])}{name[1..]}, {PlanText.Say(at, units)}, lies outside every floor of the plan.");
        return (place?.XM, place?.YM);
    }

    private void ReadSettings(PressureFieldTest test)
    {
        var kept = test.Settings.OrderBy(s => s.Position).ToList();
        test.Settings.Clear();
        for (var i = 0; i < form.Settings.Count; i++)
        {
            var row = form.Settings[i];
            if (row.IsEmpty) continue;
            var setting = test.Settings.Count < kept.Count ? kept[test.Settings.Count] : new FanSetting { Label = "" };
            ReadSetting(setting, row, i);
            setting.Position = test.Settings.Count;
            test.Settings.Add(setting);
        }
    }

    private void ReadSetting(FanSetting setting, PfeForm.SettingRow row, int i)
    {
        var at = string.Create(CultureInfo.InvariantCulture, $"Settings[{i}]");
        setting.FanId = int.TryParse(row.FanId, NumberStyles.None, CultureInfo.InvariantCulture, out var id) && fans.ContainsKey(id) ? id : null;
        var label = read.Text(row.Label, $"{at}.Label", "name of the setting", most: 80);
        setting.Label = label.Length > 0 ? label : setting.FanId is { } fan ? fans[fan] : string.Create(CultureInfo.InvariantCulture, $"Setting {i + 1}");
        var typed = (row.PitVacuum ?? "").Trim();
        var pit = read.Measure(GaugePressure with { Name = "suction at the pit" }, MeasureText.Clean(typed).TrimStart('-'), $"{at}.PitVacuum", needed: true) ?? 0;
        if (pit == 0 && typed.Length > 0) read.Refuse($"{at}.PitVacuum", "The suction at the pit must be above zero; with no suction nothing was tried.");
        (setting.PitVacuumPa, setting.PitVacuumAsEntered) = (pit, typed);
        setting.FlowM3PerS = read.Measure(Flow, row.Flow, $"{at}.Flow");
        setting.Watts = read.Measure(Power, row.Watts, $"{at}.Watts");
    }

    private void ReadHoles(PressureFieldTest test)
    {
        var kept = test.TestHoles.OrderBy(h => h.Position).ToList();
        test.TestHoles.Clear();
        for (var i = 0; i < form.Holes.Count; i++)
        {
            if (form.Holes[i].IsEmpty) continue;
            var hole = test.TestHoles.Count < kept.Count ? kept[test.TestHoles.Count] : new TestHole { Label = "" };
            ReadHole(hole, form.Holes[i], i, test);
            hole.Position = test.TestHoles.Count;
            if (test.TestHoles.Exists(h => string.Equals(h.Label, hole.Label, StringComparison.OrdinalIgnoreCase)))
                read.Refuse(string.Create(CultureInfo.InvariantCulture, $"Holes[{i}].Label"), $"Two holes are called {hole.Label}; give each its own name.");
            test.TestHoles.Add(hole);
        }
    }

    private void ReadHole(TestHole hole, PfeForm.HoleRow row, int i, PressureFieldTest test)
    {
        var at = string.Create(CultureInfo.InvariantCulture, $"Holes[{i}]");
        var label = read.Text(row.Label, $"{at}.Label", "name of the hole", most: 40);
        hole.Label = label.Length > 0 ? label : string.Create(CultureInfo.InvariantCulture, $"T{i + 1}");
        hole.Place = read.Text(row.Place, $"{at}.Place", "place of the hole", most: 120);
        (hole.XM, hole.YM) = OnPlan(row.At, hole.At, $"{at}.At", $"test hole {hole.Label}");
        hole.DistanceM = read.Measure(Length with { Name = "distance" }, row.Distance, $"{at}.Distance");
        hole.FanOffPa = read.Measure(Pressure with { Name = "fan-off reading" }, row.FanOff, $"{at}.FanOff");
        ReadOn(hole, row, at, test);
    }

    private void ReadOn(TestHole hole, PfeForm.HoleRow row, string at, PressureFieldTest test)
    {
        var kept = hole.Readings.ToList();
        hole.Readings.Clear();
        var filled = form.Settings.Select((s, j) => (s.IsEmpty, Column: j)).Where(s => !s.IsEmpty).Select(s => s.Column).ToList();
        for (var j = 0; j < row.On.Count; j++)
        {
            var field = string.Create(CultureInfo.InvariantCulture, $"{at}.On[{j}]");
            if (string.IsNullOrWhiteSpace(row.On[j])) continue;
            if (filled.IndexOf(j) is var nth && nth < 0) read.Refuse(field, $"There is a reading for setting {j + 1}, but setting {j + 1} is empty. Fill it in above, or clear the reading.");
            else if (read.Measure(Pressure with { Name = "fan-on reading" }, row.On[j], field) is { } pa) Take(hole, kept, test.Settings[nth], Suction(row.On[j]!, pa), row.On[j]!.Trim());
        }
    }

    private void Take(TestHole hole, List<HoleReading> kept, FanSetting setting, double pa, string typed)
    {
        var reading = (setting.Id > 0 ? kept.Find(r => r.FanSettingId == setting.Id) : null) ?? new HoleReading { FanSettingId = setting.Id };
        (reading.FanOnPa, reading.AsEntered) = (pa, typed);
        if (setting.Id > 0) hole.Readings.Add(reading);
        else Waiting.Add((hole, reading, setting));
    }

    /// <summary>Readings of settings that have no number yet: added by <see cref="AddWaiting"/> once the settings are saved.</summary>
    private List<(TestHole Hole, HoleReading Reading, FanSetting Setting)> Waiting { get; } = [];

    public void AddWaiting()
    {
        foreach (var (hole, reading, setting) in Waiting)
        {
            reading.FanSettingId = setting.Id;
            hole.Readings.Add(reading);
        }
    }

    private static double Suction(string typed, double pa) => MeasureText.Clean(typed)[0] is '+' or '-' ? pa : -pa;
}
