using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Houses;

namespace MitigationOffice.Business.Diagnosis;

/// <summary>The section through a house with a day's readings in it: those of the setting that drew hardest.</summary>
public static class SectionOfTest
{
    public static HouseFacts Of(PressureFieldTest test, House house, string name, UnitSystem units)
    {
        var setting = test.Settings.MaxBy(s => s.PitVacuumPa);
        return Of(house, name, units) with
        {
            PitVacuumPa = setting?.PitVacuumPa,
            Holes = [.. test.TestHoles.OrderBy(h => h.Position).Select(h => new HoleMark(
                h.Label, h.Readings.Find(r => r.FanSettingId == setting?.Id) is { } on ? -on.FanOnPa : null, test.FromPitM(h)))],
        };
    }

    /// <summary>The house alone, without readings.</summary>
    public static HouseFacts Of(House house, string name, UnitSystem units) => new()
    {
        Name = name,
        Basement = house.Areas.Count == 0 || house.Areas.Exists(a => a.Kind == FoundationKind.Basement),
        FootingDivides = house.Areas.Exists(a => a.FootingDivides),
        Storeys = house.StoreysAboveGrade,
        Units = units,
    };
}
