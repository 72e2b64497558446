using System.Globalization;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Engineering.Siting;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.Measures;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>Where the mouth stands, as it is typed. Rows left empty are ignored.</summary>
public sealed class SitingForm
{
    private static readonly Measure Away = Measures.Length with { Name = "distance", Most = 300 };
    private static readonly Measure Over = Height with { Least = -60, Most = 60 };

    public static IEnumerable<(string Value, string Words)> Mountings =>
    [
        ("", "as the route says"), (nameof(DischargeMounting.SideOfHouse), "up the side of the house"),
        (nameof(DischargeMounting.ThroughPitchedRoof), "through a pitched roof"), (nameof(DischargeMounting.ThroughFlatRoof), "through a flat roof"),
    ];

    public static IEnumerable<(string Value, string Words)> Fans => Words.Options<FanLocation>("as the route says");

    public string? Rules { get; set; }
    public string? Mounting { get; set; }
    public string? Fan { get; set; }
    public string? AboveGrade { get; set; }
    public string? AboveRoof { get; set; }
    public string? FromVertical { get; set; }
    public bool RainCap { get; set; }
    public List<NearRow> Openings { get; set; } = [];
    public bool NoOpening { get; set; }
    public List<NearRow> Buildings { get; set; } = [];
    public bool NoBuilding { get; set; }
    public List<NearRow> Walls { get; set; } = [];
    public bool NoWall { get; set; }

    // Read when two people changed the same design, to say what the other one saved.
    public string OpeningsInWords => InWords(Openings);
    public string BuildingsInWords => InWords(Buildings);
    public string WallsInWords => InWords(Walls);

    /// <summary>An opening, a building or a wall. <see cref="Second"/>: the mouth over the opening's top, the building's nearest opening, or how far the wall rises over the mouth.</summary>
    public sealed class NearRow
    {
        public string? Kind { get; set; }
        public string? Name { get; set; }
        public string? Distance { get; set; }
        public string? Second { get; set; }

        public bool IsEmpty => string.IsNullOrWhiteSpace(Name + Distance + Second);
    }

    public static SitingForm Of(SuctionDesign d, UnitSystem units)
    {
        var near = NearMouth.Load(d.Nearby);
        string Long(double? metres) => Measures.Length.Number(metres, units);
        string High(double? metres) => Height.Number(metres, units);
        return new SitingForm
        {
            Rules = d.SitingRules, Mounting = d.Mounting?.ToString() ?? "", Fan = d.FanStands?.ToString() ?? "", AboveGrade = High(d.DischargeAboveGradeM), AboveRoof = High(d.AboveRoofM),
            FromVertical = TypedNumbers.Plain((decimal)d.FromVerticalDeg), RainCap = d.RainCap, NoOpening = d.NoOpeningNear, NoBuilding = d.NoBuildingNear, NoWall = d.NoWallNear,
            Openings =
            [
                .. d.OpeningDistanceM is null ? [] : new[] { new NearRow { Kind = d.OpeningKind.ToString(), Name = d.OpeningName, Distance = Long(d.OpeningDistanceM), Second = High(d.AboveOpeningTopM) } },
                .. near.Openings.Select(o => new NearRow { Kind = o.Kind.ToString(), Name = o.Name, Distance = Long(o.DistanceM), Second = High(o.TopBelowMouthM) }),
            ],
            Buildings =
            [
                .. d.AdjacentBuildingM is null ? [] : new[] { new NearRow { Name = d.BuildingName, Distance = Long(d.AdjacentBuildingM), Second = Long(d.BuildingOpeningM) } },
                .. near.Buildings.Select(b => new NearRow { Name = b.Name, Distance = Long(b.DistanceM), Second = Long(b.NearestOpeningM) }),
            ],
            Walls = [.. near.Walls.Select(w => new NearRow { Name = w.Name, Distance = Long(w.DistanceM), Second = High(w.TopAboveMouthM) })],
        };
    }

    public void WithRoom(int more = 0)
    {
        foreach (var rows in (List<NearRow>[])[Openings, Buildings, Walls])
            while (rows.Count < NearMouth.Most && rows.Count(r => r.IsEmpty) < 1 + more) rows.Add(new());
    }

    /// <summary>Reads the form into the design; what cannot be read is refused and leaves the design's own value.</summary>
    public void Write(SuctionDesign d, FormReading read, IReadOnlyList<string> rules)
    {
        d.SitingRules = Rules ?? "";
        if (!rules.Contains(d.SitingRules)) read.Refuse(nameof(Rules), "Choose the rules from the list.");
        d.Mounting = Enum.TryParse<DischargeMounting>(Mounting, out var mounting) ? mounting : null;
        d.FanStands = Enum.TryParse<FanLocation>(Fan, out var fan) ? fan : null;
        d.DischargeAboveGradeM = read.Measure(Height with { Name = "height above grade", Least = 0, Most = 60 }, AboveGrade, nameof(AboveGrade));
        d.AboveRoofM = read.Measure(Over with { Name = "height over the roof" }, AboveRoof, nameof(AboveRoof));
        d.FromVerticalDeg = (double)(read.Number(FromVertical, nameof(FromVertical), "angle of the mouth", 0, 180) ?? 0);
        d.RainCap = RainCap;
        var (openings, buildings, walls) = (ReadOpenings(read), ReadBuildings(read), ReadWalls(read));
        (d.NoOpeningNear, d.NoBuildingNear, d.NoWallNear) = (NoOpening, NoBuilding, NoWall);
        RefuseBoth(read, NoOpening, openings.Count, nameof(NoOpening), "an opening");
        RefuseBoth(read, NoBuilding, buildings.Count, nameof(NoBuilding), "a building");
        RefuseBoth(read, NoWall, walls.Count, nameof(NoWall), "a wall");
        var (opening, building) = (openings.FirstOrDefault(), buildings.FirstOrDefault());
        (d.OpeningName, d.OpeningKind, d.OpeningDistanceM, d.AboveOpeningTopM) = (opening?.Name ?? "", opening?.Kind ?? OpeningKind.Window, opening?.DistanceM, opening?.TopBelowMouthM);
        (d.BuildingName, d.AdjacentBuildingM, d.BuildingOpeningM) = (building?.Name ?? "", building?.DistanceM, building?.NearestOpeningM);
        d.Nearby = new NearMouth([.. openings.Skip(1).Select((o, i) => o with { Name = Named(o.Name, Words.Of(o.Kind), i + 2) })], [.. buildings.Skip(1).Select((b, i) => b with { Name = Named(b.Name, "Building", i + 2) })],
            [.. walls.Select((w, i) => w with { Name = Named(w.Name, "Wall", i + 1) })]).Store();
    }

    private List<FileOpening> ReadOpenings(FormReading read) => Read(Openings, nameof(Openings), read, (row, at, away) =>
    {
        var over = read.Measure(Over with { Name = "height over the opening" }, row.Second, $"{at}.Second");
        if (over - 0.005 > away) read.Refuse($"{at}.Distance", "The opening cannot be nearer than its top lies below the mouth. Measure from the mouth to the nearest point of the opening.");
        return new FileOpening { Kind = Enum.TryParse<OpeningKind>(row.Kind, out var kind) ? kind : OpeningKind.Window, Name = Name(row, at, read), DistanceM = away, TopBelowMouthM = over };
    });

    private List<FileBuilding> ReadBuildings(FormReading read) => Read(Buildings, nameof(Buildings), read, (row, at, away) => new FileBuilding
    {
        Name = Name(row, at, read), DistanceM = away, NearestOpeningM = read.Measure(Away with { Name = "distance to the building’s opening" }, row.Second, $"{at}.Second"),
    });

    private List<FileWall> ReadWalls(FormReading read) => Read(Walls, nameof(Walls), read, (row, at, away) => new FileWall
    {
        Name = Name(row, at, read), DistanceM = away, TopAboveMouthM = read.Measure(Over with { Name = "height of the wall over the mouth" }, row.Second, $"{at}.Second", needed: true) ?? 0,
    });

    private static List<T> Read<T>(List<NearRow> rows, string of, FormReading read, Func<NearRow, string, double, T> make)
    {
        var made = new List<T>();
        for (var i = 0; i < Math.Min(rows.Count, NearMouth.Most); i++)
        {
            if (rows[i].IsEmpty) continue;
            var at = string.Create(CultureInfo.InvariantCulture, $"{of}[{i}]");
            if (read.Measure(Away, rows[i].Distance, $"{at}.Distance", needed: true) is { } away) made.Add(make(rows[i], at, away));
        }

        return made;
    }

    private static void RefuseBoth(FormReading read, bool none, int count, string field, string what)
    {
        if (none && count > 0) read.Refuse(field, $"You wrote down {what} and ticked that there is none. Take one of them away.");
    }

    private static string Name(NearRow row, string at, FormReading read) => read.Text(row.Name, $"{at}.Name", "name", most: 60).Replace('|', '/').ReplaceLineEndings(" ");

    private static string Named(string typed, string kind, int number) => typed.Length > 0 ? typed : string.Create(CultureInfo.InvariantCulture, $"{kind} {number}");

    private static string InWords(List<NearRow> rows) => string.Join("; ", rows.Where(r => !r.IsEmpty).Select(r => $"{r.Name} {r.Distance} {r.Second}".Trim()));
}
