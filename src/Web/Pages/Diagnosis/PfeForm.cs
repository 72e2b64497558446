using MitigationOffice.Business.Data;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.Measures;

namespace MitigationOffice.Web.Pages.Diagnosis;

/// <summary>A PFE test as it is typed. Rows left empty are ignored.</summary>
public sealed class PfeForm
{
    public const int MostSettings = 6;
    public const int MostHoles = 24;

    /// <summary>As many as a coverage map takes.</summary>
    public const int MostSuction = 12;

    public string? Day { get; set; }
    public string? MeasuredBy { get; set; }
    public string? Instrument { get; set; }
    public string? Outdoor { get; set; }
    public string? Indoor { get; set; }
    public string? AppliancesRunning { get; set; }
    public string? Notes { get; set; }
    public List<SuctionRow> Suction { get; set; } = [];
    public List<SettingRow> Settings { get; set; } = [];
    public List<HoleRow> Holes { get; set; } = [];

    /// <summary>One hole where suction was drawn; all rows drew at once. <see cref="At"/>: across and up on the floor plan.</summary>
    public sealed class SuctionRow
    {
        public string? Label { get; set; }
        public string? Place { get; set; }
        public string? At { get; set; }

        public bool IsEmpty => string.IsNullOrWhiteSpace(Label + Place + At);
    }

    /// <summary>One fan or vacuum at one setting.</summary>
    public sealed class SettingRow
    {
        public string? FanId { get; set; }
        public string? Label { get; set; }
        public string? PitVacuum { get; set; }
        public string? Flow { get; set; }
        public string? Watts { get; set; }

        public bool IsEmpty => string.IsNullOrWhiteSpace(FanId + Label + PitVacuum + Flow + Watts);
    }

    /// <summary>One test hole: a reading with the fan off, and one for each setting.</summary>
    public sealed class HoleRow
    {
        public string? Label { get; set; }
        public string? Place { get; set; }
        public string? At { get; set; }
        public string? Distance { get; set; }
        public string? FanOff { get; set; }
        public List<string?> On { get; set; } = [];

        public bool IsEmpty => string.IsNullOrWhiteSpace(Label + Place + At + Distance + FanOff + string.Concat(On));
    }

    public static PfeForm Of(PressureFieldTest test, UnitSystem units)
    {
        var settings = test.Settings.OrderBy(s => s.Position).ToList();
        return new PfeForm
        {
            Day = TypedNumbers.Plain(test.Day), MeasuredBy = test.MeasuredBy, Instrument = test.Instrument,
            Outdoor = Temperature.Number(test.OutdoorC, units), Indoor = Temperature.Number(test.IndoorC, units),
            AppliancesRunning = test.AppliancesRunning, Notes = test.Notes,
            Suction = [.. test.SuctionHoles.OrderBy(s => s.Id).Select(s => new SuctionRow { Label = s.Label, Place = s.Place, At = PlanText.Show(s.At, units) })],
            Settings = [.. settings.Select(s => Row(s, units))],
            Holes = [.. test.TestHoles.OrderBy(h => h.Position).Select(h => Row(h, settings, units))],
        };
    }

    /// <summary>Offers empty rows below those that are filled.</summary>
    public PfeForm WithRoom(int settings, int holes, int suction = 1)
    {
        while (Suction.Count < Math.Min(MostSuction, suction)) Suction.Add(new());
        while (Settings.Count < Math.Min(MostSettings, settings)) Settings.Add(new());
        while (Holes.Count < Math.Min(MostHoles, holes)) Holes.Add(new());
        foreach (var hole in Holes)
            while (hole.On.Count < Settings.Count) hole.On.Add(null);
        return this;
    }

    public int FilledSettings => Settings.FindLastIndex(s => !s.IsEmpty) + 1;

    public int FilledHoles => Holes.FindLastIndex(h => !h.IsEmpty) + 1;

    private static SettingRow Row(FanSetting s, UnitSystem units) => new()
    {
        FanId = s.FanId is { } id ? TypedNumbers.Plain((decimal)id) : "", Label = s.Label,
        PitVacuum = s.PitVacuumAsEntered.Length > 0 ? s.PitVacuumAsEntered : GaugePressure.Show(s.PitVacuumPa, units),
        Flow = Flow1(s.FlowM3PerS, units), Watts = Power.Number(s.Watts, units),
    };

    private static string Flow1(double? flow, UnitSystem units) => Measures.Flow.Number(flow, units);

    private static HoleRow Row(TestHole h, List<FanSetting> settings, UnitSystem units) => new()
    {
        Label = h.Label, Place = h.Place, At = PlanText.Show(h.At, units), Distance = Length.Number(h.DistanceM, units),
        FanOff = Pressure.Number(h.FanOffPa, units),
        On = [.. settings.Select(s => h.Readings.Find(r => r.FanSettingId == s.Id) is { } r ? r.AsEntered.Length > 0 ? r.AsEntered : Pressure.Number(r.FanOnPa, units) : null)],
    };
}
