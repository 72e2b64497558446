using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Engineering.Radon;
using MitigationOffice.Web.Setup.Forms;
using static MitigationOffice.Business.Data.Measures;
using static MitigationOffice.Business.Data.TypedNumbers;

namespace MitigationOffice.Web.Pages.Shop;

/// <summary>The company's page as it is typed.</summary>
public sealed class CompanyForm
{
    public string? Name { get; set; }
    public string? Street { get; set; }
    public string? City { get; set; }
    public string? State { get; set; }
    public string? Zip { get; set; }
    public string? Phone { get; set; }
    public string? Email { get; set; }
    public string? TimeZone { get; set; }
    public string? CertificationNumber { get; set; }
    public string? StateProgram { get; set; }
    public string? StateProgramPhone { get; set; }
    public string? TaxPercent { get; set; }
    public string? DepositPercent { get; set; }
    public string? QuoteValidDays { get; set; }
    public string? DepositDueDays { get; set; }
    public string? BalanceDueDays { get; set; }
    public string? InvoiceDueDays { get; set; }
    public string? LabourPricePerHour { get; set; }
    public string? LabourCostPerHour { get; set; }
    public string? OverheadPercent { get; set; }
    public string? LeastMarginPercent { get; set; }
    public string? PriceFloor { get; set; }
    public string? GuaranteePCiL { get; set; }
    public string? GuaranteeMonths { get; set; }
    public string? GuaranteeVisits { get; set; }
    public string? GuaranteeConditions { get; set; }
    public string? ElectricityCentsPerKWh { get; set; }
    public string? ElectricityPriceSource { get; set; }
    public string? FuelDollarsPerTherm { get; set; }
    public string? HeatingEfficiency { get; set; }
    public string? DesignWinter { get; set; }
    public string? JanuaryMean { get; set; }
    public string? MeanAnnual { get; set; }
    public string? WinterDays { get; set; }
    public string? HeatingDegreeDays { get; set; }
    public string? Elevation { get; set; }
    public string? Indoor { get; set; }
    public string? TargetSuction { get; set; }
    public string? TargetPCiL { get; set; }
    public string? IndoorAirShare { get; set; }
    public string? RetestMonths { get; set; }
    public string? AlarmBatteryMonths { get; set; }
    public string? FirstTierName { get; set; }
    public string? SecondTierName { get; set; }
    public string? ThirdTierName { get; set; }
    public string? QuoteIntroduction { get; set; }
    public string? QuotePromise { get; set; }
    public string? QuoteCautions { get; set; }
    public string? QuoteTerms { get; set; }
    public string? CancellationNotice { get; set; }

    public static CompanyForm Of(CompanyProfile c, UnitSystem units) => new()
    {
        Name = c.Name,
        Street = c.Street,
        City = c.City,
        State = c.State,
        Zip = c.Zip,
        Phone = c.Phone,
        Email = c.Email,
        TimeZone = c.TimeZone,
        CertificationNumber = c.CertificationNumber,
        StateProgram = c.StateProgram,
        StateProgramPhone = c.StateProgramPhone,
        TaxPercent = Plain(c.TaxPercent),
        DepositPercent = Plain(c.DepositPercent),
        QuoteValidDays = Plain((decimal)c.QuoteValidDays),
        DepositDueDays = Plain((decimal)c.DepositDueDays),
        BalanceDueDays = Plain((decimal)c.BalanceDueDays),
        InvoiceDueDays = Plain((decimal)c.InvoiceDueDays),
        LabourPricePerHour = Plain(c.LabourPricePerHour),
        LabourCostPerHour = Plain(c.LabourCostPerHour),
        OverheadPercent = Plain(c.OverheadPercent),
        LeastMarginPercent = Plain(c.LeastMarginPercent),
        PriceFloor = Plain(c.PriceFloor),
        GuaranteePCiL = Plain(c.GuaranteePCiL),
        GuaranteeMonths = Plain((decimal)c.GuaranteeMonths),
        GuaranteeVisits = Plain((decimal)c.GuaranteeVisits),
        GuaranteeConditions = c.GuaranteeConditions,
        ElectricityCentsPerKWh = Plain(c.ElectricityCentsPerKWh),
        ElectricityPriceSource = c.ElectricityPriceSource,
        FuelDollarsPerTherm = Plain(c.FuelDollarsPerTherm),
        HeatingEfficiency = Plain(c.HeatingEfficiency),
        DesignWinter = Temperature.Number(c.DesignWinterC, units),
        JanuaryMean = Temperature.Number(c.JanuaryMeanC, units),
        MeanAnnual = Temperature.Number(c.MeanAnnualC, units),
        WinterDays = Plain((decimal)c.WinterDays),
        HeatingDegreeDays = DegreeDays.Number(c.HeatingDegreeDaysC, units),
        Elevation = Measures.Elevation.Number(c.ElevationM, units),
        Indoor = Temperature.Number(c.IndoorC, units),
        TargetSuction = Pressure.Number(c.TargetSuctionPa, units),
        TargetPCiL = Plain(c.TargetPCiL),
        IndoorAirShare = Plain((decimal)c.IndoorAirShare),
        RetestMonths = Plain((decimal)c.RetestMonths),
        AlarmBatteryMonths = Plain((decimal)c.AlarmBatteryMonths),
        FirstTierName = c.FirstTierName,
        SecondTierName = c.SecondTierName,
        ThirdTierName = c.ThirdTierName,
        QuoteIntroduction = c.QuoteIntroduction,
        QuotePromise = c.QuotePromise,
        QuoteCautions = c.QuoteCautions,
        QuoteTerms = c.QuoteTerms,
        CancellationNotice = c.CancellationNotice,
    };

    /// <summary>Reads every field into the record; a value that cannot be read is refused and leaves the record's own.</summary>
    public void Write(CompanyProfile c, FormReading read)
    {
        WritePaper(c, read);
        WriteMoney(c, read);
        WriteWinter(c, read);
        WriteRules(c, read);
    }

    private void WritePaper(CompanyProfile c, FormReading read)
    {
        c.Name = read.Text(Name, nameof(Name), "company's name", needed: true, most: 120);
        c.Street = read.Text(Street, nameof(Street), "street", most: 120);
        c.City = read.Text(City, nameof(City), "city", most: 80);
        c.State = read.Text(State, nameof(State), "state", most: 30);
        c.Zip = read.Text(Zip, nameof(Zip), "ZIP code", most: 12);
        c.Phone = read.Text(Phone, nameof(Phone), "phone", most: 40);
        c.Email = read.Text(Email, nameof(Email), "e-mail address", most: 254);
        c.CertificationNumber = read.Text(CertificationNumber, nameof(CertificationNumber), "certification number", most: 60);
        c.StateProgram = read.Text(StateProgram, nameof(StateProgram), "state program", most: 120);
        c.StateProgramPhone = read.Text(StateProgramPhone, nameof(StateProgramPhone), "state program's phone", most: 40);
        c.TimeZone = read.Text(TimeZone, nameof(TimeZone), "time zone", needed: true, most: 60);
        if (c.TimeZone.Length > 0 && !TimeZoneInfo.TryFindSystemTimeZoneById(c.TimeZone, out _))
            read.Refuse(nameof(TimeZone), $"“{c.TimeZone}” is not a time zone this machine knows. Write one like America/Chicago.");
    }

    private void WriteMoney(CompanyProfile c, FormReading read)
    {
        c.TaxPercent = read.Number(TaxPercent, nameof(TaxPercent), "sales tax", 0, 25) ?? 0;
        c.DepositPercent = read.Number(DepositPercent, nameof(DepositPercent), "deposit", 0, 100) ?? 0;
        c.DepositDueDays = read.Whole(DepositDueDays, nameof(DepositDueDays), "number of days", 0, 365, needed: true) ?? c.DepositDueDays;
        c.BalanceDueDays = read.Whole(BalanceDueDays, nameof(BalanceDueDays), "number of days", 0, 365, needed: true) ?? c.BalanceDueDays;
        c.InvoiceDueDays = read.Whole(InvoiceDueDays, nameof(InvoiceDueDays), "number of days", 0, 365, needed: true) ?? c.InvoiceDueDays;
        c.QuoteValidDays = read.Whole(QuoteValidDays, nameof(QuoteValidDays), "number of days", 1, 365, needed: true) ?? c.QuoteValidDays;
        c.LabourPricePerHour = read.Money(LabourPricePerHour, nameof(LabourPricePerHour), "price of an hour") ?? Money.Zero;
        c.LabourCostPerHour = read.Money(LabourCostPerHour, nameof(LabourCostPerHour), "cost of an hour") ?? Money.Zero;
        c.OverheadPercent = read.Number(OverheadPercent, nameof(OverheadPercent), "overhead", 0, 500) ?? 0;
        c.LeastMarginPercent = read.Number(LeastMarginPercent, nameof(LeastMarginPercent), "least margin", 0, 95) ?? 0;
        c.PriceFloor = read.Money(PriceFloor, nameof(PriceFloor), "price floor") ?? Money.Zero;
        c.ElectricityCentsPerKWh = read.Number(ElectricityCentsPerKWh, nameof(ElectricityCentsPerKWh), "price of electricity", 0, 500, needed: true) ?? 0;
        c.ElectricityPriceSource = read.Text(ElectricityPriceSource, nameof(ElectricityPriceSource), "source of the price", most: 200);
        c.FuelDollarsPerTherm = read.Number(FuelDollarsPerTherm, nameof(FuelDollarsPerTherm), "price of heating fuel", 0, 50) ?? 0;
        c.HeatingEfficiency = read.Number(HeatingEfficiency, nameof(HeatingEfficiency), "heating efficiency", 0.3m, 5m, needed: true) ?? c.HeatingEfficiency;
    }

    private void WriteWinter(CompanyProfile c, FormReading read)
    {
        c.DesignWinterC = read.Measure(Temperature, DesignWinter, nameof(DesignWinter), needed: true) ?? c.DesignWinterC;
        c.JanuaryMeanC = read.Measure(Temperature, JanuaryMean, nameof(JanuaryMean), needed: true) ?? c.JanuaryMeanC;
        c.MeanAnnualC = read.Measure(Temperature, MeanAnnual, nameof(MeanAnnual), needed: true) ?? c.MeanAnnualC;
        c.WinterDays = read.Whole(WinterDays, nameof(WinterDays), "number of winter days", 0, 250, needed: true) ?? c.WinterDays;
        c.HeatingDegreeDaysC = read.Measure(DegreeDays, HeatingDegreeDays, nameof(HeatingDegreeDays), needed: true) ?? c.HeatingDegreeDaysC;
        c.ElevationM = read.Measure(Measures.Elevation, Elevation, nameof(Elevation), needed: true) ?? c.ElevationM;
        c.IndoorC = read.Measure(Temperature, Indoor, nameof(Indoor), needed: true) ?? c.IndoorC;
        if (c.DesignWinterC > c.JanuaryMeanC) read.Refuse(nameof(DesignWinter), "The design temperature must not be warmer than the January mean.");
    }

    private void WriteRules(CompanyProfile c, FormReading read)
    {
        c.TargetSuctionPa = read.Measure(Pressure, TargetSuction, nameof(TargetSuction), needed: true) ?? c.TargetSuctionPa;
        if (c.TargetSuctionPa < 0) read.Refuse(nameof(TargetSuction), "Write the suction as a positive number.");
        c.TargetPCiL = read.Number(TargetPCiL, nameof(TargetPCiL), "radon level", 0.4m, 20m, needed: true) ?? c.TargetPCiL;
        if (c.TargetPCiL > RadonLevels.EpaActionPciPerL) read.Refuse(nameof(TargetPCiL), $"The level promised must not stand above the EPA action level of {RadonLevels.EpaActionPciPerL:0.0} pCi/L.");
        c.GuaranteePCiL = read.Number(GuaranteePCiL, nameof(GuaranteePCiL), "guaranteed level", 0, 20) ?? 0;
        c.GuaranteeMonths = read.Whole(GuaranteeMonths, nameof(GuaranteeMonths), "number of months", 0, 240) ?? 0;
        c.GuaranteeVisits = read.Whole(GuaranteeVisits, nameof(GuaranteeVisits), "number of free visits", 0, 50) ?? 0;
        c.GuaranteeConditions = read.Text(GuaranteeConditions, nameof(GuaranteeConditions), "conditions", most: 4000);
        c.IndoorAirShare = (double)(read.Number(IndoorAirShare, nameof(IndoorAirShare), "share of house air", 0, 1, needed: true) ?? 0.5m);
        c.RetestMonths = read.Whole(RetestMonths, nameof(RetestMonths), "number of months", 1, 120, needed: true) ?? c.RetestMonths;
        c.AlarmBatteryMonths = read.Whole(AlarmBatteryMonths, nameof(AlarmBatteryMonths), "number of months", 1, 120, needed: true) ?? c.AlarmBatteryMonths;
        c.FirstTierName = read.Text(FirstTierName, nameof(FirstTierName), "name of the first choice", needed: true, most: 60);
        c.SecondTierName = read.Text(SecondTierName, nameof(SecondTierName), "name of the second choice", needed: true, most: 60);
        c.ThirdTierName = read.Text(ThirdTierName, nameof(ThirdTierName), "name of the third choice", needed: true, most: 60);
        c.QuoteIntroduction = read.Text(QuoteIntroduction, nameof(QuoteIntroduction), "opening words");
        c.QuotePromise = read.Text(QuotePromise, nameof(QuotePromise), "promise");
        c.QuoteCautions = read.Text(QuoteCautions, nameof(QuoteCautions), "cautions");
        c.QuoteTerms = read.Text(QuoteTerms, nameof(QuoteTerms), "terms");
        c.CancellationNotice = read.Text(CancellationNotice, nameof(CancellationNotice), "notice");
    }
}
