using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>The inquiry sheet as it is typed: the house and its rows.</summary>
public sealed class HouseForm
{
    private const int MostRows = 40;

    public string? Street { get; set; }
    public string? Street2 { get; set; }
    public string? City { get; set; }
    public string? County { get; set; }
    public string? State { get; set; }
    public string? Zip { get; set; }
    public string? TimeZone { get; set; }
    public string? Building { get; set; }
    public string? YearBuilt { get; set; }
    public string? Storeys { get; set; } = "1";
    public string? YearsInUse { get; set; }
    public string? Sump { get; set; }
    public string? Heating { get; set; }
    public string? WaterSupply { get; set; }
    public bool VermiculiteSuspected { get; set; }
    public bool UnderTrees { get; set; }
    public bool AnimalsTrouble { get; set; }
    public string? Elevation { get; set; }
    public string? DesignWinter { get; set; }
    public string? HowTheyFoundUs { get; set; }
    public string? Notes { get; set; }
    public List<AreaRow> Areas { get; set; } = [];
    public List<ApplianceRow> Appliances { get; set; } = [];
    public List<EarlierTestRow> EarlierTests { get; set; } = [];

    // Read when two people changed the same house, to say what the other one saved.
    public string AreasInWords => string.Join("; ", Areas.Where(r => !r.IsEmpty).Select(r => r.InWords));
    public string AppliancesInWords => string.Join("; ", Appliances.Where(r => !r.IsEmpty).Select(r => r.InWords));
    public string EarlierTestsInWords => string.Join("; ", EarlierTests.Where(r => !r.IsEmpty).Select(r => r.InWords));

    public static HouseForm Of(House h, UnitSystem units) => new()
    {
        Street = h.Street,
        Street2 = h.Street2,
        City = h.City,
        County = h.County,
        State = h.State,
        Zip = h.Zip,
        TimeZone = h.TimeZone,
        Building = h.Building.ToString(),
        YearBuilt = $"{h.YearBuilt}",
        Storeys = TypedNumbers.Plain((decimal)h.StoreysAboveGrade),
        YearsInUse = $"{h.YearsInUse}",
        Sump = h.Sump.ToString(),
        Heating = h.Heating,
        WaterSupply = h.WaterSupply,
        VermiculiteSuspected = h.VermiculiteSuspected,
        UnderTrees = h.UnderTrees,
        AnimalsTrouble = h.AnimalsTrouble,
        Elevation = Measures.Elevation.Number(h.ElevationM, units),
        DesignWinter = Measures.Temperature.Number(h.DesignWinterC, units),
        HowTheyFoundUs = h.HowTheyFoundUs,
        Notes = h.Notes,
        Areas = [.. h.Areas.OrderBy(a => a.Id).Select(a => AreaRow.Of(a, units))],
        Appliances = [.. h.Appliances.OrderBy(a => a.Id).Select(ApplianceRow.Of)],
        EarlierTests = [.. h.EarlierTests.OrderBy(t => t.Id).Select(t => EarlierTestRow.Of(t, units))],
    };

    /// <summary>Empty rows to write in: at least one of each kind.</summary>
    public void OfferRows(int areas, int appliances, int tests)
    {
        Offer(Areas, areas);
        Offer(Appliances, appliances);
        Offer(EarlierTests, tests);
    }

    public void Write(House h, FormReading read, UnitSystem units, DateOnly today)
    {
        WriteAddress(h, read);
        WriteBuilding(h, read, units, today);
        Write(h.Areas, Areas, (row, area, name) => row.Write(area, read, name, units), nameof(Areas), () => new FoundationArea { Name = "" });
        Write(h.Appliances, Appliances, (row, appliance, name) => row.Write(appliance, read, name), nameof(Appliances), () => new Appliance { Name = "" });
        Write(h.EarlierTests, EarlierTests, (row, test, name) => row.Write(test, read, name, units, today), nameof(EarlierTests), () => new EarlierTest());
        h.MakeSearchable();
    }

    private void WriteAddress(House h, FormReading read)
    {
        h.Street = read.Text(Street, nameof(Street), "street and number", needed: true, most: 120);
        h.Street2 = read.Text(Street2, nameof(Street2), "second line of the address", most: 120);
        h.City = read.Text(City, nameof(City), "city", needed: true, most: 80);
        h.County = read.Text(County, nameof(County), "county", most: 80);
        h.State = read.Text(State, nameof(State), "state", needed: true, most: 30) is { Length: 2 } code ? code.ToUpperInvariant() : (State ?? "").Trim();
        h.Zip = read.Text(Zip, nameof(Zip), "ZIP code", needed: true, most: 12);
        if (h.Zip.Length > 0 && h.Zip.Count(char.IsAsciiDigit) is not (5 or 9)) read.Refuse(nameof(Zip), "Write the ZIP code with its five digits, or nine.");
        h.TimeZone = read.Text(TimeZone, nameof(TimeZone), "time zone", most: 60);
        if (h.TimeZone.Length > 0 && !TimeZoneInfo.TryFindSystemTimeZoneById(h.TimeZone, out _))
            read.Refuse(nameof(TimeZone), "This is not a time zone this machine knows. Write one like America/Denver, or leave it empty.");
    }

    private void WriteBuilding(House h, FormReading read, UnitSystem units, DateOnly today)
    {
        h.Building = read.Choice(Building, nameof(Building), "kind of building", BuildingKind.SingleFamily);
        h.YearBuilt = read.Whole(YearBuilt, nameof(YearBuilt), "year it was built", 1600, today.Year + 1);
        h.StoreysAboveGrade = (double)(read.Number(Storeys, nameof(Storeys), "number of storeys above the ground", 0.5m, 60) ?? 1);
        h.YearsInUse = read.Whole(YearsInUse, nameof(YearsInUse), "years it will be used", 1, 200);
        h.Sump = read.Choice(Sump, nameof(Sump), "kind of sump", SumpKind.None);
        h.Heating = read.Text(Heating, nameof(Heating), "heating", most: 120);
        h.WaterSupply = read.Text(WaterSupply, nameof(WaterSupply), "water supply", most: 120);
        (h.VermiculiteSuspected, h.UnderTrees, h.AnimalsTrouble) = (VermiculiteSuspected, UnderTrees, AnimalsTrouble);
        h.ElevationM = read.Kept(Measures.Elevation, Elevation, h.ElevationM, nameof(Elevation), units);
        h.DesignWinterC = read.Kept(Measures.Temperature, DesignWinter, h.DesignWinterC, nameof(DesignWinter), units);
        h.HowTheyFoundUs = read.Text(HowTheyFoundUs, nameof(HowTheyFoundUs), "answer", most: 200);
        h.Notes = read.Text(Notes, nameof(Notes), "notes", most: 20_000);
    }

    /// <summary>Brings the records in line with the rows: changed, added, taken out.</summary>
    private static void Write<TRow, TRecord>(List<TRecord> held, List<TRow> rows, Action<TRow, TRecord, string> write, string field, Func<TRecord> make)
        where TRow : HouseRow
        where TRecord : Record
    {
        var kept = new List<TRecord>();
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].IsEmpty) continue;
            var record = held.Find(r => r.Id != 0 && r.Id == rows[i].Id) ?? make();
            write(rows[i], record, $"{field}[{i}]");
            kept.Add(record);
        }

        held.RemoveAll(r => !kept.Contains(r));
        held.AddRange(kept.Where(r => !held.Contains(r)));
    }

    private static void Offer<TRow>(List<TRow> rows, int empty)
        where TRow : HouseRow, new()
    {
        while (rows.Count < MostRows && rows.Count(r => r.IsEmpty && r.Id == 0) < empty) rows.Add(new TRow());
    }
}
