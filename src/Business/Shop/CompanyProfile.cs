using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Shop;

/// <summary>The contractor's own page: who they are and what they assume. One row.</summary>
[Holds(Truth.Fact)]
public sealed class CompanyProfile : Record
{
    public string Name { get; set; } = "";
    public string Street { get; set; } = "";
    public string City { get; set; } = "";
    public string State { get; set; } = "";
    public string Zip { get; set; } = "";
    public string Phone { get; set; } = "";
    public string Email { get; set; } = "";

    /// <summary>IANA name, for example "America/Chicago".</summary>
    public string TimeZone { get; set; } = "America/Chicago";

    public string CertificationNumber { get; set; } = "";
    public string StateProgram { get; set; } = "";
    public string StateProgramPhone { get; set; } = "";

    public decimal TaxPercent { get; set; }
    public decimal DepositPercent { get; set; } = 30m;
    public int QuoteValidDays { get; set; } = 30;

    /// <summary>Days from issue until the deposit, the balance and an invoice by hand are due; 0: at once. A quote keeps the first
    /// two as they were when it was drafted.</summary>
    public int DepositDueDays { get; set; }
    public int BalanceDueDays { get; set; }
    public int InvoiceDueDays { get; set; } = 14;
    public Money LabourPricePerHour { get; set; } = Money.FromDollars(95m);
    public Money LabourCostPerHour { get; set; } = Money.FromDollars(52m);

    /// <summary>What the shop costs beside the work, as a share of the work's cost.</summary>
    public decimal OverheadPercent { get; set; }

    /// <summary>The least share of the net price that must be left when work and overhead are paid for; 0: no rule.</summary>
    public decimal LeastMarginPercent { get; set; }

    /// <summary>The least a job is done for, before tax; 0: no floor.</summary>
    public Money PriceFloor { get; set; }

    public decimal ElectricityCentsPerKWh { get; set; } = 15m;
    public string ElectricityPriceSource { get; set; } = "";
    public decimal FuelDollarsPerTherm { get; set; } = 1.20m;
    public decimal HeatingEfficiency { get; set; } = 0.80m;

    public double DesignWinterC { get; set; } = -23.3;
    public double JanuaryMeanC { get; set; } = -9.4;
    public double IndoorC { get; set; } = 21.1;
    public double MeanAnnualC { get; set; } = 7.2;
    public double HeatingDegreeDaysC { get; set; } = 4300;
    public double ElevationM { get; set; } = 300;
    public int WinterDays { get; set; } = 90;

    /// <summary>Suction wanted at the weakest test hole in design winter: a house rule, not from a standard.</summary>
    public double TargetSuctionPa { get; set; } = 1.0;

    /// <summary>Share of the exhausted air that comes from the house: an assumption, 0 to 1.</summary>
    public double IndoorAirShare { get; set; } = 0.5;

    /// <summary>The level the company aims for, pCi/L; below it a house is done.</summary>
    public decimal TargetPCiL { get; set; } = 2.0m;

    public string FirstTierName { get; set; } = "Sound";
    public string SecondTierName { get; set; } = "Sure";
    public string ThirdTierName { get; set; } = "Through every winter";

    public string QuoteIntroduction { get; set; } = "";
    public string QuotePromise { get; set; } = "";
    public string QuoteTerms { get; set; } = "";
    public string QuoteCautions { get; set; } = "";
    public string CancellationNotice { get; set; } = "";

    /// <summary>The radon level guaranteed in quotes, pCi/L; 0: none.</summary>
    public decimal GuaranteePCiL { get; set; } = 4.0m;
    public int GuaranteeMonths { get; set; } = 12;
    public int GuaranteeVisits { get; set; } = 2;
    public string GuaranteeConditions { get; set; } = "";

    public int AlarmBatteryMonths { get; set; } = 12;
    public int RetestMonths { get; set; } = 24;
}

/// <summary>A licence or certification of the company or a person.</summary>
[Holds(Truth.Fact)]
public sealed class Licence : Record
{
    public required string Holder { get; set; }
    public required string Number { get; set; }
    public required string IssuedBy { get; set; }
    public DateOnly? ExpiresOn { get; set; }

    /// <summary>Minutes of education asked for before the renewal; empty where none are.</summary>
    public int? EducationMinutesNeeded { get; set; }
    public List<EducationCourse> Courses { get; set; } = [];
}

/// <summary>A course taken towards the renewal of a licence.</summary>
[Holds(Truth.Fact)]
public sealed class EducationCourse : Record
{
    public int LicenceId { get; set; }
    public DateOnly Day { get; set; }
    public required string Title { get; set; }
    public int Minutes { get; set; }
    public decimal Hours => Minutes / 60m;

    /// <summary>Counted for the term that ended; no longer for the one that runs.</summary>
    public bool Used { get; set; }
}
