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
        var house = await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == design.HouseId);
        var company = await db.Company.AsNoTracking().SingleAsync();
        var test = await db.PressureFieldTests.AsNoTracking().Include(t => t.Settings).Include(t => t.TestHoles).ThenInclude(h => h.Readings).AsSingleQuery().SingleAsync(t => t.Id == testId);
        var fans = await db.Fans.AsNoTracking().Include(f => f.Points).OrderBy(f => f.Model).AsSingleQuery().ToListAsync();
        var climate = await db.Climates.AsNoTracking().FirstOrDefaultAsync(c => c.HouseId == design.HouseId && !c.SetAside);
        return new DesignInputs(Of(design, house, company, test, fans) with { Climate = climate is null ? null : Weather(climate), Discharge = await GatherMouth.OfAsync(db, design, house) }, house);
    }

    public static DesignFile Of(SuctionDesign design, House house, CompanyProfile company, PressureFieldTest test, IReadOnlyList<Fan> fans) => new()
    {
        Format = DesignFile.CurrentFormat, House = house.AddressLine, Revision = design.Revision, TargetPa = design.TargetPa,
        Site = Site(house, company), Prices = Prices(company), Test = Test(test, fans),
        Route = [.. design.Pieces.OrderBy(p => p.Position).Select(p => new FilePiece
        {
            Kind = p.Kind, Size = p.Size, LengthM = p.LengthM, RiseM = p.RiseM, Place = p.Place, Count = p.Count, LossK = p.LossK,
        })],
        Fans = [.. fans.Where(f => !f.Retired || f.Id == design.FanId || test.Settings.Exists(s => s.FanId == f.Id)).Select(Fan)],
        ChosenFan = fans.FirstOrDefault(f => f.Id == design.FanId)?.Model,
    };

    /// <summary>Its faults were told when it was read.</summary>
    private static FileClimate Weather(HouseClimate climate) => new() { Unit = RecordUnit.Celsius, Csv = "DATE,TMIN,TMAX\n" + climate.Days, AcceptFaults = true };

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
