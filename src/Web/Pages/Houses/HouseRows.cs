using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>A row of a house as it is typed. A row left empty is ignored; one on record may be taken out.</summary>
public abstract class HouseRow
{
    public int Id { get; set; }
    public bool TakeOut { get; set; }
    public bool IsEmpty => TakeOut || string.IsNullOrWhiteSpace(AllTyped);
    protected abstract string AllTyped { get; }
}

public sealed class AreaRow : HouseRow
{
    public string? Name { get; set; }
    public string? Kind { get; set; }
    public string? Floor { get; set; }
    public string? Under { get; set; }
    public bool FootingDivides { get; set; }
    protected override string AllTyped => Name + Kind + Floor + Under + (FootingDivides ? "footing" : "");

    public static AreaRow Of(FoundationArea a, UnitSystem units) => new()
    {
        Id = a.Id, Name = a.Name, Kind = a.Kind.ToString(), Floor = a.FloorM2 > 0 ? Measures.Area.Number(a.FloorM2, units) : "", Under = a.Under.ToString(), FootingDivides = a.FootingDivides,
    };

    public void Write(FoundationArea a, FormReading read, string row, UnitSystem units)
    {
        a.Kind = read.Choice(Kind, $"{row}.Kind", "kind of foundation", a.Kind, needed: true);
        a.Name = read.Text(Name, $"{row}.Name", "area's name", most: 80) is { Length: > 0 } name ? name : Words.Of(a.Kind);
        a.FloorM2 = read.Kept(Measures.Area, Floor, a.FloorM2, $"{row}.Floor", units) ?? 0;
        a.Under = read.Choice(Under, $"{row}.Under", "layer under the slab", UnderSlab.NotKnown);
        a.FootingDivides = FootingDivides;
    }

    public string InWords => $"{Name} {Kind} {Floor} {Under}{(FootingDivides ? " divided by a footing" : "")}".Trim();
}

public sealed class ApplianceRow : HouseRow
{
    public string? Name { get; set; }
    public string? Draft { get; set; }
    public string? Place { get; set; }
    protected override string AllTyped => Name + Draft + Place;

    public static ApplianceRow Of(Appliance a) => new() { Id = a.Id, Name = a.Name, Draft = a.Draft.ToString(), Place = a.Place };

    public void Write(Appliance a, FormReading read, string row)
    {
        a.Name = read.Text(Name, $"{row}.Name", "appliance", needed: true, most: 80);
        a.Draft = read.Choice(Draft, $"{row}.Draft", "kind of draft; where nobody knows, say natural: it is the one to be careful about", a.Draft, needed: true);
        a.Place = read.Text(Place, $"{row}.Place", "place", most: 120);
    }

    public string InWords => $"{Name} {Draft} {Place}".Trim();
}

public sealed class EarlierTestRow : HouseRow
{
    public string? Level { get; set; }
    public string? Room { get; set; }
    public string? Device { get; set; }
    public string? StartedOn { get; set; }
    public string? EndedOn { get; set; }
    public string? MadeBy { get; set; }
    protected override string AllTyped => Level + Room + Device + StartedOn + EndedOn + MadeBy;

    public static EarlierTestRow Of(EarlierTest t, UnitSystem units) => new()
    {
        Id = t.Id, Level = RadonReading.Typed(t.PCiL, units), Room = t.Room, Device = t.Device, MadeBy = t.MadeBy,
        StartedOn = TypedNumbers.Plain(t.StartedOn), EndedOn = TypedNumbers.Plain(t.EndedOn),
    };

    public void Write(EarlierTest t, FormReading read, string row, UnitSystem units, DateOnly today)
    {
        if (t.Id == 0 || (Level ?? "").Trim() != RadonReading.Typed(t.PCiL, units)) t.PCiL = ReadLevel(read, row, units);
        t.Room = read.Text(Room, $"{row}.Room", "room", most: 120);
        t.Device = read.Text(Device, $"{row}.Device", "device", most: 120);
        t.MadeBy = read.Text(MadeBy, $"{row}.MadeBy", "tester", most: 120);
        t.StartedOn = read.Day(StartedOn, $"{row}.StartedOn", "first day of the test");
        t.EndedOn = read.Day(EndedOn, $"{row}.EndedOn", "last day of the test");
        if (t.EndedOn < t.StartedOn) read.Refuse($"{row}.EndedOn", "The test cannot end before it began.");
        if (t.EndedOn > today || t.StartedOn > today) read.Refuse($"{row}.StartedOn", "An earlier test cannot lie in the future.");
    }

    private decimal ReadLevel(FormReading read, string row, UnitSystem units)
    {
        var (level, problem) = RadonReading.Read(Level, units);
        if (level is null) read.Refuse($"{row}.Level", problem ?? "Write the radon level that was measured, or empty the whole row.");
        return level ?? 0;
    }

    public string InWords => $"{Level} {Room} {Device} {StartedOn} {EndedOn} {MadeBy}".Trim();
}
