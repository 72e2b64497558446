using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Engineering.Freezing.Weather;

namespace MitigationOffice.Business.Design;

/// <summary>All that goes into a design's computation, and the house it was gathered from.</summary>
public sealed record DesignInputs(DesignFile File, House House)
{
    /// <summary>The whole catalogue, retired fans with it, by model.</summary>
    public IReadOnlyList<Fan> Catalogue { get; init; } = [];

    /// <summary>Why the coverage of the slab is not among them.</summary>
    public string? WhyNoPlan { get; init; }

    public string Hash { get; } = DesignFileText.HashOf(File);
}

/// <summary>Collects from the records all that the computation of a design takes.</summary>
public static class GatherDesign
{
    /// <summary>Null where the design answers no PFE test yet.</summary>
    public static async Task<DesignFile?> FileAsync(OfficeDb db, SuctionDesign design) => (await InputsAsync(db, design))?.File;

    /// <summary>Null where the design answers no PFE test yet.</summary>
    public static async Task<DesignInputs?> InputsAsync(OfficeDb db, SuctionDesign design)
    {
        if (design.PressureFieldTestId is not { } testId) return null;
        if (design.Branches.Count == 0 && design.Pieces.Exists(p => p.Branch != 0)) throw new InvalidOperationException("Read the design with its branches.");
        var (house, weather) = await HouseAndWeatherAsync(db, design.HouseId);
        var company = await db.Company.AsNoTracking().SingleAsync();
        var wanted = design.Branches.Select(b => b.PressureFieldTestId).OfType<int>().Append(testId).ToList();
        var tests = await db.PressureFieldTests.AsNoTracking().Include(t => t.Settings).Include(t => t.SuctionHoles).Include(t => t.TestHoles).ThenInclude(h => h.Readings).AsSingleQuery()
            .Where(t => wanted.Contains(t.Id)).ToListAsync();
        var fans = await db.Fans.AsNoTracking().Include(f => f.Points).OrderBy(f => f.Model).AsSingleQuery().ToListAsync();
        var (plan, whyNone) = GatherPlan.Of(house, tests.Single(t => t.Id == testId));
        var file = Of(design, house, company, tests, fans) with { FloorPlan = plan, Climate = weather is null ? null : Weather(weather), Discharge = await GatherMouth.OfAsync(db, design, house) };
        return new DesignInputs(file with { OutdoorRun = AssumedOutdoors.Of(file) }, house) { WhyNoPlan = whyNone, Catalogue = fans };
    }

    private static async Task<(House House, string? WeatherDays)> HouseAndWeatherAsync(OfficeDb db, int houseId)
    {
        var both = await db.Houses.AsNoTracking().Include(h => h.Areas).Where(h => h.Id == houseId)
            .Select(h => new { House = h, Days = db.Climates.Where(c => c.HouseId == h.Id && !c.SetAside).Select(c => c.Days).FirstOrDefault() }).AsSingleQuery().SingleAsync();
        return (both.House, both.Days);
    }

    private static DesignFile Of(SuctionDesign design, House house, CompanyProfile company, List<PressureFieldTest> tests, IReadOnlyList<Fan> fans) => new()
    {
        Format = DesignFile.CurrentFormat, House = house.AddressLine, Revision = design.Revision, TargetPa = design.TargetPa,
        Site = Site(house, company), Prices = Prices(company), Test = Test(tests.Single(t => t.Id == design.PressureFieldTestId), fans),
        Route = Line(design, 0),
        Fans = [.. fans.Where(f => !f.Retired || f.Id == design.FanId || tests.Exists(t => t.Settings.Exists(s => s.FanId == f.Id))).Select(Fan)],
        ChosenFan = fans.FirstOrDefault(f => f.Id == design.FanId)?.Model,
        FurtherPoints = design.Branches.Count == 0 ? null : [.. Further(design, house, tests, fans)],
    };

    private static List<FilePiece> Line(SuctionDesign design, int branch) => [.. design.Line(branch).Select(p => new FilePiece
    {
        Kind = p.Kind, Size = p.Size, LengthM = p.LengthM, RiseM = p.RiseM, Place = p.Place, Count = p.Count, LossK = p.LossK,
    })];

    /// <summary>A point whose test is not chosen yet is left out; the form tells of it.</summary>
    private static IEnumerable<FileFurtherPoint> Further(SuctionDesign design, House house, List<PressureFieldTest> tests, IReadOnlyList<Fan> fans)
    {
        foreach (var branch in design.BranchesInOrder())
            if (tests.Find(t => t.Id == branch.PressureFieldTestId) is { } test)
                yield return new FileFurtherPoint
                {
                    Name = branch.Name, Test = Test(test, fans), Branch = Line(design, branch.Number), JoinsAfterPiece = branch.JoinsAfterPiece,
                    JoinsInto = design.Branches.Find(b => b.Number == branch.JoinsBranch)?.Name, At = GatherPlan.PitOf(house, test),
                };
    }

    /// <summary>Its faults were told when it was read.</summary>
    private static FileClimate Weather(string days) => new() { Unit = RecordUnit.Celsius, Csv = "DATE,TMIN,TMAX\n" + days, AcceptFaults = true };

    private static FileSite Site(House house, CompanyProfile company) => new()
    {
        ElevationM = house.ElevationM ?? company.ElevationM, DesignWinterC = house.DesignWinterC ?? company.DesignWinterC,
        JanuaryMeanC = company.JanuaryMeanC, MeanAnnualC = company.MeanAnnualC, IndoorC = company.IndoorC, WinterDays = company.WinterDays,
        HeatingDegreeDaysC = company.HeatingDegreeDaysC, Storeys = house.StoreysAboveGrade,
        Basement = house.Areas.Count == 0 || house.Areas.Exists(a => a.Kind == FoundationKind.Basement),
    };

    private static FilePrices Prices(CompanyProfile company) => new()
    {
        ElectricityCentsPerKWh = (double)company.ElectricityCentsPerKWh, FuelDollarsPerTherm = (double)company.FuelDollarsPerTherm,
        HeatingEfficiency = (double)company.HeatingEfficiency, IndoorAirShare = company.IndoorAirShare,
    };

    private static FileTest Test(PressureFieldTest test, IReadOnlyList<Fan> fans)
    {
        var settings = test.Settings.OrderBy(s => s.Position).ToList();
        return new FileTest
        {
            Day = test.Day, OutdoorC = test.OutdoorC, IndoorC = test.IndoorC,
            Settings = [.. settings.Select(s => new FileSetting
            {
                Label = s.Label, Fan = fans.FirstOrDefault(f => f.Id == s.FanId)?.Model, PitVacuumPa = s.PitVacuumPa, FlowM3PerS = s.FlowM3PerS, Watts = s.Watts,
            })],
            Holes = [.. test.TestHoles.OrderBy(h => h.Position).Select(h => new FileHole
            {
                Label = h.Label, DistanceM = h.DistanceM, FanOffPa = h.FanOffPa,
                FanOnPa = [.. settings.Select(s => h.Readings.Find(r => r.FanSettingId == s.Id)?.FanOnPa)],
            })],
        };
    }

    private static FileFan Fan(Fan f) => new()
    {
        Model = f.Model, PriceDollars = (double)f.Price.Dollars, ExpectedLifeYears = f.ExpectedLifeYears, NoiseDbA = f.NoiseDbA,
        Points = [.. f.Points.OrderBy(p => p.FlowM3PerS).Select(p => new FileFanPoint(p.FlowM3PerS, p.StaticPressurePa, p.Watts))],
    };
}
