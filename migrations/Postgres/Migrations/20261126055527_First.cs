using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace MitigationOffice.Migrations.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class First : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Audit",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Subject = table.Column<string>(type: "text", nullable: false),
                    SubjectId = table.Column<int>(type: "integer", nullable: false),
                    Act = table.Column<string>(type: "text", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: true),
                    Changes = table.Column<string>(type: "text", nullable: false),
                    PreviousHash = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Audit", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Company",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Street = table.Column<string>(type: "text", nullable: false),
                    City = table.Column<string>(type: "text", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Zip = table.Column<string>(type: "text", nullable: false),
                    Phone = table.Column<string>(type: "text", nullable: false),
                    Email = table.Column<string>(type: "text", nullable: false),
                    TimeZone = table.Column<string>(type: "text", nullable: false),
                    CertificationNumber = table.Column<string>(type: "text", nullable: false),
                    StateProgram = table.Column<string>(type: "text", nullable: false),
                    StateProgramPhone = table.Column<string>(type: "text", nullable: false),
                    TaxPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    DepositPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    QuoteValidDays = table.Column<int>(type: "integer", nullable: false),
                    DepositDueDays = table.Column<int>(type: "integer", nullable: false),
                    BalanceDueDays = table.Column<int>(type: "integer", nullable: false),
                    InvoiceDueDays = table.Column<int>(type: "integer", nullable: false),
                    OverheadPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    LeastMarginPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    ElectricityCentsPerKWh = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    ElectricityPriceSource = table.Column<string>(type: "text", nullable: false),
                    FuelDollarsPerTherm = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    HeatingEfficiency = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    DesignWinterC = table.Column<double>(type: "double precision", nullable: false),
                    JanuaryMeanC = table.Column<double>(type: "double precision", nullable: false),
                    IndoorC = table.Column<double>(type: "double precision", nullable: false),
                    MeanAnnualC = table.Column<double>(type: "double precision", nullable: false),
                    HeatingDegreeDaysC = table.Column<double>(type: "double precision", nullable: false),
                    ElevationM = table.Column<double>(type: "double precision", nullable: false),
                    WinterDays = table.Column<int>(type: "integer", nullable: false),
                    TargetSuctionPa = table.Column<double>(type: "double precision", nullable: false),
                    IndoorAirShare = table.Column<double>(type: "double precision", nullable: false),
                    TargetPCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    FirstTierName = table.Column<string>(type: "text", nullable: false),
                    SecondTierName = table.Column<string>(type: "text", nullable: false),
                    ThirdTierName = table.Column<string>(type: "text", nullable: false),
                    QuoteIntroduction = table.Column<string>(type: "text", nullable: false),
                    QuotePromise = table.Column<string>(type: "text", nullable: false),
                    QuoteTerms = table.Column<string>(type: "text", nullable: false),
                    QuoteCautions = table.Column<string>(type: "text", nullable: false),
                    CancellationNotice = table.Column<string>(type: "text", nullable: false),
                    GuaranteePCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    GuaranteeMonths = table.Column<int>(type: "integer", nullable: false),
                    GuaranteeVisits = table.Column<int>(type: "integer", nullable: false),
                    GuaranteeConditions = table.Column<string>(type: "text", nullable: false),
                    AlarmBatteryMonths = table.Column<int>(type: "integer", nullable: false),
                    RetestMonths = table.Column<int>(type: "integer", nullable: false),
                    LabourCostPerHour_Cents = table.Column<long>(type: "bigint", nullable: false),
                    LabourPricePerHour_Cents = table.Column<long>(type: "bigint", nullable: false),
                    PriceFloor_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Company", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Counters",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Series = table.Column<string>(type: "text", nullable: false),
                    Last = table.Column<int>(type: "integer", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Counters", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Customers",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    ContactName = table.Column<string>(type: "text", nullable: false),
                    Email = table.Column<string>(type: "text", nullable: false),
                    Phone = table.Column<string>(type: "text", nullable: false),
                    OtherPhone = table.Column<string>(type: "text", nullable: false),
                    MailingAddress = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    Search = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Customers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "FanRecalls",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Model = table.Column<string>(type: "text", nullable: false),
                    SerialFrom = table.Column<string>(type: "text", nullable: false),
                    SerialTo = table.Column<string>(type: "text", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    Advice = table.Column<string>(type: "text", nullable: false),
                    OpenedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    OpenedBy = table.Column<string>(type: "text", nullable: false),
                    ClosedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FanRecalls", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Fans",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Model = table.Column<string>(type: "text", nullable: false),
                    Maker = table.Column<string>(type: "text", nullable: false),
                    Connection = table.Column<string>(type: "text", nullable: false),
                    NoiseDbA = table.Column<double>(type: "double precision", nullable: true),
                    WarrantyYears = table.Column<int>(type: "integer", nullable: false),
                    ExpectedLifeYears = table.Column<int>(type: "integer", nullable: false),
                    Retired = table.Column<bool>(type: "boolean", nullable: false),
                    Price_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Fans", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Houses",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Street = table.Column<string>(type: "text", nullable: false),
                    Street2 = table.Column<string>(type: "text", nullable: false),
                    City = table.Column<string>(type: "text", nullable: false),
                    County = table.Column<string>(type: "text", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    Zip = table.Column<string>(type: "text", nullable: false),
                    TimeZone = table.Column<string>(type: "text", nullable: false),
                    Building = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    YearBuilt = table.Column<int>(type: "integer", nullable: true),
                    StoreysAboveGrade = table.Column<double>(type: "double precision", nullable: false),
                    YearsInUse = table.Column<int>(type: "integer", nullable: true),
                    Sump = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Heating = table.Column<string>(type: "text", nullable: false),
                    WaterSupply = table.Column<string>(type: "text", nullable: false),
                    VermiculiteSuspected = table.Column<bool>(type: "boolean", nullable: false),
                    UnderTrees = table.Column<bool>(type: "boolean", nullable: false),
                    AnimalsTrouble = table.Column<bool>(type: "boolean", nullable: false),
                    ElevationM = table.Column<double>(type: "double precision", nullable: true),
                    DesignWinterC = table.Column<double>(type: "double precision", nullable: true),
                    FootingsM = table.Column<string>(type: "text", nullable: false),
                    SumpXM = table.Column<double>(type: "double precision", nullable: true),
                    SumpYM = table.Column<double>(type: "double precision", nullable: true),
                    HowTheyFoundUs = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    AskedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    AddressKey = table.Column<string>(type: "text", nullable: false),
                    Search = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Houses", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Instruments",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Serial = table.Column<string>(type: "text", nullable: false),
                    SerialKey = table.Column<string>(type: "text", nullable: false),
                    Model = table.Column<string>(type: "text", nullable: false),
                    KeptBy = table.Column<string>(type: "text", nullable: false),
                    UseBy = table.Column<DateOnly>(type: "date", nullable: true),
                    Retired = table.Column<bool>(type: "boolean", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    FileHabit = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Instruments", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Licences",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Holder = table.Column<string>(type: "text", nullable: false),
                    Number = table.Column<string>(type: "text", nullable: false),
                    IssuedBy = table.Column<string>(type: "text", nullable: false),
                    ExpiresOn = table.Column<DateOnly>(type: "date", nullable: true),
                    EducationMinutesNeeded = table.Column<int>(type: "integer", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Licences", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "NudgeRules",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AfterDays = table.Column<int>(type: "integer", nullable: false),
                    Subject = table.Column<string>(type: "text", nullable: false),
                    Body = table.Column<string>(type: "text", nullable: false),
                    Off = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_NudgeRules", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "OutboxGates",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    LastTickUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    PausedUntilUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    PausedWhy = table.Column<string>(type: "text", nullable: false),
                    HeldWhy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_OutboxGates", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "OwnCorrections",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Of = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Ratio = table.Column<double>(type: "double precision", nullable: false),
                    Readings = table.Column<int>(type: "integer", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    OnAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    OnBy = table.Column<string>(type: "text", nullable: false),
                    OffAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    OffBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_OwnCorrections", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "PriceBookVersions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    LabourCostPerHour_Cents = table.Column<long>(type: "bigint", nullable: false),
                    LabourPricePerHour_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PriceBookVersions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "PriceItems",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Use = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Unit = table.Column<string>(type: "text", nullable: false),
                    Rule = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    MarkupPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    LabourMinutes = table.Column<int>(type: "integer", nullable: false),
                    Taxable = table.Column<bool>(type: "boolean", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    TakenBy = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    PipeSize = table.Column<string>(type: "text", nullable: false),
                    FanModel = table.Column<string>(type: "text", nullable: false),
                    FromTier = table.Column<int>(type: "integer", nullable: false),
                    OfferedFor = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    RecommendedFrom = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    OwnRule = table.Column<string>(type: "text", nullable: false),
                    Retired = table.Column<bool>(type: "boolean", nullable: false),
                    Cost_Cents = table.Column<long>(type: "bigint", nullable: false),
                    FixedPrice_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PriceItems", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "QualityActions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Point = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QualityActions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "QualityChecks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    DeviceKind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Serial = table.Column<string>(type: "text", nullable: false),
                    SecondSerial = table.Column<string>(type: "text", nullable: false),
                    PCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    AgainstPCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QualityChecks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ReminderRules",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Anchor = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    EveryMonths = table.Column<int>(type: "integer", nullable: true),
                    AfterDays = table.Column<string>(type: "text", nullable: false),
                    SeasonDay = table.Column<string>(type: "text", nullable: false),
                    ByModel = table.Column<string>(type: "text", nullable: false),
                    StopAfterMonths = table.Column<int>(type: "integer", nullable: true),
                    AtRiskDays = table.Column<int>(type: "integer", nullable: true),
                    LeadDays = table.Column<int>(type: "integer", nullable: false),
                    Channel = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Commercial = table.Column<bool>(type: "boolean", nullable: false),
                    Subject = table.Column<string>(type: "text", nullable: false),
                    Body = table.Column<string>(type: "text", nullable: false),
                    Off = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReminderRules", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ReportDuties",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ProfileCode = table.Column<string>(type: "text", nullable: false),
                    StartsOn = table.Column<DateOnly>(type: "date", nullable: false),
                    State = table.Column<string>(type: "text", nullable: false),
                    CompanyNumber = table.Column<string>(type: "text", nullable: false),
                    SignedBy = table.Column<string>(type: "text", nullable: false),
                    Ended = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReportDuties", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ReportProfiles",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Code = table.Column<string>(type: "text", nullable: false),
                    Edition = table.Column<int>(type: "integer", nullable: false),
                    Json = table.Column<string>(type: "text", nullable: false),
                    SavedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    SavedBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReportProfiles", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "RuleSets",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Key = table.Column<string>(type: "text", nullable: false),
                    Edition = table.Column<int>(type: "integer", nullable: false),
                    Jurisdiction = table.Column<string>(type: "text", nullable: false),
                    Citation = table.Column<string>(type: "text", nullable: false),
                    Rules = table.Column<int>(type: "integer", nullable: false),
                    Text = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    AddedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    AddedBy = table.Column<string>(type: "text", nullable: false),
                    SetAside = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RuleSets", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Staff",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    FullName = table.Column<string>(type: "text", nullable: false),
                    Role = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Left = table.Column<bool>(type: "boolean", nullable: false),
                    UserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    PasswordHash = table.Column<string>(type: "text", nullable: true),
                    SecurityStamp = table.Column<string>(type: "text", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "text", nullable: true),
                    PhoneNumber = table.Column<string>(type: "text", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Staff", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "StepTexts",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Code = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Caution = table.Column<string>(type: "text", nullable: false),
                    Source = table.Column<string>(type: "text", nullable: false),
                    LeftOut = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_StepTexts", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Submissions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Key = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    LedTo = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Submissions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Suppressions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Address = table.Column<string>(type: "text", nullable: false),
                    Class = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Why = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Suppressions", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "TaxRates",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Percent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Kinds = table.Column<string>(type: "text", nullable: false),
                    ValidFrom = table.Column<DateOnly>(type: "date", nullable: false),
                    ValidTo = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TaxRates", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "UnsubscribeLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TokenHash = table.Column<string>(type: "text", nullable: false),
                    Address = table.Column<string>(type: "text", nullable: false),
                    Class = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_UnsubscribeLinks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Vehicles",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Plate = table.Column<string>(type: "text", nullable: false),
                    Retired = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Vehicles", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "FanPoint",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    FanId = table.Column<int>(type: "integer", nullable: false),
                    FlowM3PerS = table.Column<double>(type: "double precision", nullable: false),
                    StaticPressurePa = table.Column<double>(type: "double precision", nullable: false),
                    Watts = table.Column<double>(type: "double precision", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FanPoint", x => x.Id);
                    table.ForeignKey(
                        name: "FK_FanPoint_Fans_FanId",
                        column: x => x.FanId,
                        principalTable: "Fans",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Appliance",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Draft = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Place = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Appliance", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Appliance_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Climates",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    Station = table.Column<string>(type: "text", nullable: false),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    Unit = table.Column<string>(type: "text", nullable: false),
                    FirstDay = table.Column<DateOnly>(type: "date", nullable: false),
                    LastDay = table.Column<DateOnly>(type: "date", nullable: false),
                    Winters = table.Column<int>(type: "integer", nullable: false),
                    FilledDays = table.Column<int>(type: "integer", nullable: false),
                    Problems = table.Column<string>(type: "text", nullable: false),
                    ReadAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ReadBy = table.Column<string>(type: "text", nullable: false),
                    SetAside = table.Column<bool>(type: "boolean", nullable: false),
                    Days = table.Column<string>(type: "text", nullable: false),
                    DaysSha256 = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Climates", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Climates_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Documents",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: true),
                    Title = table.Column<string>(type: "text", nullable: false),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    ContentType = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    StoredAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    StoredBy = table.Column<string>(type: "text", nullable: false),
                    Sha256 = table.Column<string>(type: "text", nullable: false),
                    SizeBytes = table.Column<int>(type: "integer", nullable: false),
                    Bytes = table.Column<byte[]>(type: "bytea", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Documents", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Documents_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "EarlierTest",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    PCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Room = table.Column<string>(type: "text", nullable: false),
                    Device = table.Column<string>(type: "text", nullable: false),
                    StartedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    EndedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    MadeBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_EarlierTest", x => x.Id);
                    table.ForeignKey(
                        name: "FK_EarlierTest_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "FoundationArea",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    FloorM2 = table.Column<double>(type: "double precision", nullable: false),
                    Under = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    FootingDivides = table.Column<bool>(type: "boolean", nullable: false),
                    CornersM = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FoundationArea", x => x.Id);
                    table.ForeignKey(
                        name: "FK_FoundationArea_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "HouseChanges",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    OnDay = table.Column<DateOnly>(type: "date", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HouseChanges", x => x.Id);
                    table.ForeignKey(
                        name: "FK_HouseChanges_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "HouseOwners",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    FromDay = table.Column<DateOnly>(type: "date", nullable: false),
                    ToDay = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HouseOwners", x => x.Id);
                    table.ForeignKey(
                        name: "FK_HouseOwners_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_HouseOwners_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Outbox",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Key = table.Column<string>(type: "text", nullable: false),
                    MessageId = table.Column<string>(type: "text", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: true),
                    ToAddress = table.Column<string>(type: "text", nullable: false),
                    ToName = table.Column<string>(type: "text", nullable: false),
                    Subject = table.Column<string>(type: "text", nullable: false),
                    Class = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Mime = table.Column<byte[]>(type: "bytea", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Attempts = table.Column<int>(type: "integer", nullable: false),
                    NextTryUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ClaimedUntilUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ClaimedBy = table.Column<string>(type: "text", nullable: false),
                    SentAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    LastAnswer = table.Column<string>(type: "text", nullable: false),
                    ResentAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Outbox", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Outbox_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "OwnerLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TokenHash = table.Column<string>(type: "text", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ExpiresAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_OwnerLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_OwnerLinks_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_OwnerLinks_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "OwnerWords",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    ToldAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    OnDay = table.Column<DateOnly>(type: "date", nullable: true),
                    PCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Email = table.Column<string>(type: "text", nullable: false),
                    Phone = table.Column<string>(type: "text", nullable: false),
                    PostalAddress = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    SettledAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    SettledBy = table.Column<string>(type: "text", nullable: false),
                    SettledHow = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_OwnerWords", x => x.Id);
                    table.ForeignKey(
                        name: "FK_OwnerWords_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_OwnerWords_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Payments",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    How = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Reference = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    UndoesPaymentId = table.Column<int>(type: "integer", nullable: true),
                    EnteredAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EnteredBy = table.Column<string>(type: "text", nullable: false),
                    Amount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Payments", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Payments_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Payments_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Payments_Payments_UndoesPaymentId",
                        column: x => x.UndoesPaymentId,
                        principalTable: "Payments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Quotes",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    NoNudges = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Quotes", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Quotes_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Quotes_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Calibration",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InstrumentId = table.Column<int>(type: "integer", nullable: false),
                    DoneOn = table.Column<DateOnly>(type: "date", nullable: false),
                    DueOn = table.Column<DateOnly>(type: "date", nullable: true),
                    DoneBy = table.Column<string>(type: "text", nullable: false),
                    Certificate = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Calibration", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Calibration_Instruments_InstrumentId",
                        column: x => x.InstrumentId,
                        principalTable: "Instruments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "PressureFieldTests",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    MeasuredBy = table.Column<string>(type: "text", nullable: false),
                    Instrument = table.Column<string>(type: "text", nullable: false),
                    InstrumentId = table.Column<int>(type: "integer", nullable: true),
                    OutdoorC = table.Column<double>(type: "double precision", nullable: false),
                    IndoorC = table.Column<double>(type: "double precision", nullable: false),
                    AppliancesRunning = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PressureFieldTests", x => x.Id);
                    table.ForeignKey(
                        name: "FK_PressureFieldTests_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_PressureFieldTests_Instruments_InstrumentId",
                        column: x => x.InstrumentId,
                        principalTable: "Instruments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "EducationCourse",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    LicenceId = table.Column<int>(type: "integer", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Title = table.Column<string>(type: "text", nullable: false),
                    Minutes = table.Column<int>(type: "integer", nullable: false),
                    Used = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_EducationCourse", x => x.Id);
                    table.ForeignKey(
                        name: "FK_EducationCourse_Licences_LicenceId",
                        column: x => x.LicenceId,
                        principalTable: "Licences",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "PriceChange",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PriceBookVersionId = table.Column<int>(type: "integer", nullable: false),
                    PriceItemId = table.Column<int>(type: "integer", nullable: true),
                    Act = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Code = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Cost_Cents = table.Column<long>(type: "bigint", nullable: false),
                    CostBefore_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Price_Cents = table.Column<long>(type: "bigint", nullable: false),
                    PriceBefore_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PriceChange", x => x.Id);
                    table.ForeignKey(
                        name: "FK_PriceChange_PriceBookVersions_PriceBookVersionId",
                        column: x => x.PriceBookVersionId,
                        principalTable: "PriceBookVersions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    UserId = table.Column<int>(type: "integer", nullable: false),
                    ClaimType = table.Column<string>(type: "text", nullable: true),
                    ClaimValue = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_Staff_UserId",
                        column: x => x.UserId,
                        principalTable: "Staff",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    ProviderKey = table.Column<string>(type: "text", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "text", nullable: true),
                    UserId = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_Staff_UserId",
                        column: x => x.UserId,
                        principalTable: "Staff",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                columns: table => new
                {
                    UserId = table.Column<int>(type: "integer", nullable: false),
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserTokens", x => new { x.UserId, x.LoginProvider, x.Name });
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_Staff_UserId",
                        column: x => x.UserId,
                        principalTable: "Staff",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "CalendarLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PersonId = table.Column<int>(type: "integer", nullable: false),
                    TokenHash = table.Column<string>(type: "text", nullable: false),
                    Everything = table.Column<bool>(type: "boolean", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CalendarLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CalendarLinks_Staff_PersonId",
                        column: x => x.PersonId,
                        principalTable: "Staff",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ExposureDays",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    StaffMemberId = table.Column<int>(type: "integer", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: true),
                    Where = table.Column<string>(type: "text", nullable: false),
                    PCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Hours = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    EquilibriumRatio = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    HowKnown = table.Column<string>(type: "text", nullable: false),
                    StruckOut = table.Column<string>(type: "text", nullable: false),
                    WrittenBy = table.Column<string>(type: "text", nullable: false),
                    WrittenAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ExposureDays", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ExposureDays_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ExposureDays_Staff_StaffMemberId",
                        column: x => x.StaffMemberId,
                        principalTable: "Staff",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Backdrops",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    DocumentId = table.Column<int>(type: "integer", nullable: false),
                    WidthPx = table.Column<int>(type: "integer", nullable: false),
                    HeightPx = table.Column<int>(type: "integer", nullable: false),
                    FromXPx = table.Column<double>(type: "double precision", nullable: false),
                    FromYPx = table.Column<double>(type: "double precision", nullable: false),
                    ToXPx = table.Column<double>(type: "double precision", nullable: false),
                    ToYPx = table.Column<double>(type: "double precision", nullable: false),
                    LengthM = table.Column<double>(type: "double precision", nullable: true),
                    AtXM = table.Column<double>(type: "double precision", nullable: false),
                    AtYM = table.Column<double>(type: "double precision", nullable: false),
                    Printed = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Backdrops", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Backdrops_Documents_DocumentId",
                        column: x => x.DocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Backdrops_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "LetterRuns",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    MadeAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    MadeBy = table.Column<string>(type: "text", nullable: false),
                    Letters = table.Column<int>(type: "integer", nullable: false),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: false),
                    LabelsDocumentId = table.Column<int>(type: "integer", nullable: true),
                    PostedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    PostedBy = table.Column<string>(type: "text", nullable: false),
                    TakenBackAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_LetterRuns", x => x.Id);
                    table.ForeignKey(
                        name: "FK_LetterRuns_Documents_LabelsDocumentId",
                        column: x => x.LabelsDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_LetterRuns_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ReportRuns",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ProfileCode = table.Column<string>(type: "text", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    ProfileEdition = table.Column<int>(type: "integer", nullable: false),
                    ProfileJson = table.Column<string>(type: "text", nullable: false),
                    Period = table.Column<string>(type: "text", nullable: false),
                    PeriodKind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    First = table.Column<DateOnly>(type: "date", nullable: false),
                    Last = table.Column<DateOnly>(type: "date", nullable: false),
                    DueOn = table.Column<DateOnly>(type: "date", nullable: true),
                    FrozenAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    FrozenBy = table.Column<string>(type: "text", nullable: false),
                    SignedBy = table.Column<string>(type: "text", nullable: false),
                    HeadJson = table.Column<string>(type: "text", nullable: false),
                    Counted = table.Column<int>(type: "integer", nullable: false),
                    Amendments = table.Column<int>(type: "integer", nullable: false),
                    CsvDocumentId = table.Column<int>(type: "integer", nullable: true),
                    XlsxDocumentId = table.Column<int>(type: "integer", nullable: true),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: true),
                    PreviousHash = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    Fee_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReportRuns", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReportRuns_Documents_CsvDocumentId",
                        column: x => x.CsvDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ReportRuns_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ReportRuns_Documents_XlsxDocumentId",
                        column: x => x.XlsxDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ReturnedMail",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Key = table.Column<string>(type: "text", nullable: false),
                    ReceivedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    OutboxMessageId = table.Column<int>(type: "integer", nullable: true),
                    Address = table.Column<string>(type: "text", nullable: false),
                    Status = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Way = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReturnedMail", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReturnedMail_Outbox_OutboxMessageId",
                        column: x => x.OutboxMessageId,
                        principalTable: "Outbox",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Designs",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    PressureFieldTestId = table.Column<int>(type: "integer", nullable: true),
                    Revision = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    FanId = table.Column<int>(type: "integer", nullable: true),
                    TargetPa = table.Column<double>(type: "double precision", nullable: false),
                    DischargeAboveGradeM = table.Column<double>(type: "double precision", nullable: true),
                    OpeningDistanceM = table.Column<double>(type: "double precision", nullable: true),
                    AboveOpeningTopM = table.Column<double>(type: "double precision", nullable: true),
                    AboveRoofM = table.Column<double>(type: "double precision", nullable: true),
                    AdjacentBuildingM = table.Column<double>(type: "double precision", nullable: true),
                    RainCap = table.Column<bool>(type: "boolean", nullable: false),
                    FromVerticalDeg = table.Column<double>(type: "double precision", nullable: false),
                    SitingRules = table.Column<string>(type: "text", nullable: false),
                    FrozenAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ReportJson = table.Column<string>(type: "text", nullable: true),
                    FreezeDaysAtRisk = table.Column<double>(type: "double precision", nullable: true),
                    EngineVersion = table.Column<string>(type: "text", nullable: true),
                    InputsHash = table.Column<string>(type: "text", nullable: true),
                    ComputedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    OpeningName = table.Column<string>(type: "text", nullable: false),
                    OpeningKind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    BuildingName = table.Column<string>(type: "text", nullable: false),
                    BuildingOpeningM = table.Column<double>(type: "double precision", nullable: true),
                    Nearby = table.Column<string>(type: "text", nullable: false),
                    NoOpeningNear = table.Column<bool>(type: "boolean", nullable: false),
                    NoBuildingNear = table.Column<bool>(type: "boolean", nullable: false),
                    NoWallNear = table.Column<bool>(type: "boolean", nullable: false),
                    Mounting = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    FanStands = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Designs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Designs_Fans_FanId",
                        column: x => x.FanId,
                        principalTable: "Fans",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Designs_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Designs_PressureFieldTests_PressureFieldTestId",
                        column: x => x.PressureFieldTestId,
                        principalTable: "PressureFieldTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "FanSetting",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PressureFieldTestId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    FanId = table.Column<int>(type: "integer", nullable: true),
                    Label = table.Column<string>(type: "text", nullable: false),
                    PitVacuumPa = table.Column<double>(type: "double precision", nullable: false),
                    PitVacuumAsEntered = table.Column<string>(type: "text", nullable: false),
                    FlowM3PerS = table.Column<double>(type: "double precision", nullable: true),
                    Watts = table.Column<double>(type: "double precision", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FanSetting", x => x.Id);
                    table.ForeignKey(
                        name: "FK_FanSetting_Fans_FanId",
                        column: x => x.FanId,
                        principalTable: "Fans",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_FanSetting_PressureFieldTests_PressureFieldTestId",
                        column: x => x.PressureFieldTestId,
                        principalTable: "PressureFieldTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "SuctionHole",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PressureFieldTestId = table.Column<int>(type: "integer", nullable: false),
                    Label = table.Column<string>(type: "text", nullable: false),
                    Place = table.Column<string>(type: "text", nullable: false),
                    XM = table.Column<double>(type: "double precision", nullable: true),
                    YM = table.Column<double>(type: "double precision", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SuctionHole", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SuctionHole_PressureFieldTests_PressureFieldTestId",
                        column: x => x.PressureFieldTestId,
                        principalTable: "PressureFieldTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "TestHole",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    PressureFieldTestId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Label = table.Column<string>(type: "text", nullable: false),
                    Place = table.Column<string>(type: "text", nullable: false),
                    DistanceM = table.Column<double>(type: "double precision", nullable: true),
                    XM = table.Column<double>(type: "double precision", nullable: true),
                    YM = table.Column<double>(type: "double precision", nullable: true),
                    FanOffPa = table.Column<double>(type: "double precision", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TestHole", x => x.Id);
                    table.ForeignKey(
                        name: "FK_TestHole_PressureFieldTests_PressureFieldTestId",
                        column: x => x.PressureFieldTestId,
                        principalTable: "PressureFieldTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ReportSendings",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ReportRunId = table.Column<int>(type: "integer", nullable: false),
                    SentOn = table.Column<DateOnly>(type: "date", nullable: true),
                    How = table.Column<string>(type: "text", nullable: false),
                    Confirmation = table.Column<string>(type: "text", nullable: false),
                    FeePaidOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReportSendings", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReportSendings_ReportRuns_ReportRunId",
                        column: x => x.ReportRunId,
                        principalTable: "ReportRuns",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "QuoteRevisions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteId = table.Column<int>(type: "integer", nullable: false),
                    Letter = table.Column<string>(type: "text", nullable: false),
                    SuctionDesignId = table.Column<int>(type: "integer", nullable: true),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    SentAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ValidUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    TaxPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    DepositPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    DepositDueDays = table.Column<int>(type: "integer", nullable: false),
                    BalanceDueDays = table.Column<int>(type: "integer", nullable: false),
                    Answers = table.Column<string>(type: "text", nullable: false),
                    Introduction = table.Column<string>(type: "text", nullable: false),
                    Scope = table.Column<string>(type: "text", nullable: false),
                    TimeNeeded = table.Column<string>(type: "text", nullable: false),
                    Promise = table.Column<string>(type: "text", nullable: false),
                    Cautions = table.Column<string>(type: "text", nullable: false),
                    Terms = table.Column<string>(type: "text", nullable: false),
                    CancellationNotice = table.Column<string>(type: "text", nullable: false),
                    OwnersPart = table.Column<string>(type: "text", nullable: false),
                    NoCancelNoticeBecause = table.Column<string>(type: "text", nullable: false),
                    FanLifeYears = table.Column<int>(type: "integer", nullable: false),
                    OwningYears = table.Column<int>(type: "integer", nullable: false),
                    NotOffered = table.Column<string>(type: "text", nullable: false),
                    RecommendedTier = table.Column<int>(type: "integer", nullable: false),
                    WhyRecommended = table.Column<string>(type: "text", nullable: false),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: true),
                    DeclineReason = table.Column<string>(type: "text", nullable: false),
                    LostBecause = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    ClosedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    PriceBookVersion = table.Column<int>(type: "integer", nullable: false),
                    DiscountPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    DiscountReason = table.Column<string>(type: "text", nullable: false),
                    GuaranteePCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    GuaranteeMonths = table.Column<int>(type: "integer", nullable: false),
                    GuaranteeVisits = table.Column<int>(type: "integer", nullable: false),
                    GuaranteeConditions = table.Column<string>(type: "text", nullable: false),
                    SentSha256 = table.Column<string>(type: "text", nullable: false),
                    AgreedPrice_Cents = table.Column<long>(type: "bigint", nullable: false),
                    DiscountAmount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    ElectricityPerYear_Cents = table.Column<long>(type: "bigint", nullable: false),
                    FanReplacement_Cents = table.Column<long>(type: "bigint", nullable: false),
                    HeatCablePerYear_Cents = table.Column<long>(type: "bigint", nullable: false),
                    HouseAirPerYear_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuoteRevisions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuoteRevisions_Designs_SuctionDesignId",
                        column: x => x.SuctionDesignId,
                        principalTable: "Designs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_QuoteRevisions_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_QuoteRevisions_Quotes_QuoteId",
                        column: x => x.QuoteId,
                        principalTable: "Quotes",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "RoutePiece",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SuctionDesignId = table.Column<int>(type: "integer", nullable: false),
                    Branch = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Size = table.Column<string>(type: "text", nullable: false),
                    LengthM = table.Column<double>(type: "double precision", nullable: false),
                    RiseM = table.Column<double>(type: "double precision", nullable: false),
                    Place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Count = table.Column<int>(type: "integer", nullable: false),
                    LossK = table.Column<double>(type: "double precision", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RoutePiece", x => x.Id);
                    table.ForeignKey(
                        name: "FK_RoutePiece_Designs_SuctionDesignId",
                        column: x => x.SuctionDesignId,
                        principalTable: "Designs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "SuctionBranch",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    SuctionDesignId = table.Column<int>(type: "integer", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    PressureFieldTestId = table.Column<int>(type: "integer", nullable: true),
                    JoinsBranch = table.Column<int>(type: "integer", nullable: false),
                    JoinsAfterPiece = table.Column<int>(type: "integer", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SuctionBranch", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SuctionBranch_Designs_SuctionDesignId",
                        column: x => x.SuctionDesignId,
                        principalTable: "Designs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_SuctionBranch_PressureFieldTests_PressureFieldTestId",
                        column: x => x.PressureFieldTestId,
                        principalTable: "PressureFieldTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "HoleReading",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TestHoleId = table.Column<int>(type: "integer", nullable: false),
                    FanSettingId = table.Column<int>(type: "integer", nullable: false),
                    FanOnPa = table.Column<double>(type: "double precision", nullable: false),
                    AsEntered = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HoleReading", x => x.Id);
                    table.ForeignKey(
                        name: "FK_HoleReading_FanSetting_FanSettingId",
                        column: x => x.FanSettingId,
                        principalTable: "FanSetting",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_HoleReading_TestHole_TestHoleId",
                        column: x => x.TestHoleId,
                        principalTable: "TestHole",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Acceptances",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteRevisionId = table.Column<int>(type: "integer", nullable: false),
                    QuoteTierId = table.Column<int>(type: "integer", nullable: false),
                    SuctionDesignId = table.Column<int>(type: "integer", nullable: true),
                    AddOnIds = table.Column<string>(type: "text", nullable: false),
                    DeclinedAddOnIds = table.Column<string>(type: "text", nullable: false),
                    TypedName = table.Column<string>(type: "text", nullable: false),
                    ConsentText = table.Column<string>(type: "text", nullable: false),
                    IntentText = table.Column<string>(type: "text", nullable: false),
                    PhaseText = table.Column<string>(type: "text", nullable: false),
                    OfferSha256 = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    TimeZone = table.Column<string>(type: "text", nullable: false),
                    IpAddress = table.Column<string>(type: "text", nullable: false),
                    UserAgent = table.Column<string>(type: "text", nullable: false),
                    QuoteLinkId = table.Column<int>(type: "integer", nullable: true),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: false),
                    PdfSha256 = table.Column<string>(type: "text", nullable: false),
                    SignedDocumentId = table.Column<int>(type: "integer", nullable: false),
                    SignedSha256 = table.Column<string>(type: "text", nullable: false),
                    CancelBy = table.Column<DateOnly>(type: "date", nullable: false),
                    PreviousHash = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    Deposit_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Discount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Net_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Tax_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Total_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Acceptances", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Acceptances_Designs_SuctionDesignId",
                        column: x => x.SuctionDesignId,
                        principalTable: "Designs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Acceptances_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Acceptances_Documents_SignedDocumentId",
                        column: x => x.SignedDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Acceptances_QuoteRevisions_QuoteRevisionId",
                        column: x => x.QuoteRevisionId,
                        principalTable: "QuoteRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "QuoteAddOn",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteRevisionId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    PriceItemId = table.Column<int>(type: "integer", nullable: true),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    Quantity = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    LabourMinutes = table.Column<int>(type: "integer", nullable: false),
                    OfferedFor = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Taxable = table.Column<bool>(type: "boolean", nullable: false),
                    Recommended = table.Column<bool>(type: "boolean", nullable: false),
                    Beside = table.Column<int>(type: "integer", nullable: false),
                    Cost_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Price_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuoteAddOn", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuoteAddOn_QuoteRevisions_QuoteRevisionId",
                        column: x => x.QuoteRevisionId,
                        principalTable: "QuoteRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "QuoteLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteRevisionId = table.Column<int>(type: "integer", nullable: false),
                    TokenHash = table.Column<string>(type: "text", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ExpiresAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuoteLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuoteLinks_QuoteRevisions_QuoteRevisionId",
                        column: x => x.QuoteRevisionId,
                        principalTable: "QuoteRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "QuoteNudges",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteRevisionId = table.Column<int>(type: "integer", nullable: false),
                    AfterDays = table.Column<int>(type: "integer", nullable: false),
                    OutboxMessageId = table.Column<int>(type: "integer", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuoteNudges", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuoteNudges_Outbox_OutboxMessageId",
                        column: x => x.OutboxMessageId,
                        principalTable: "Outbox",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_QuoteNudges_QuoteRevisions_QuoteRevisionId",
                        column: x => x.QuoteRevisionId,
                        principalTable: "QuoteRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "QuotePhase",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteRevisionId = table.Column<int>(type: "integer", nullable: false),
                    Level = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Scope = table.Column<string>(type: "text", nullable: false),
                    LabourMinutes = table.Column<int>(type: "integer", nullable: false),
                    Taxable = table.Column<bool>(type: "boolean", nullable: false),
                    ValidUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    Cost_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Price_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuotePhase", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuotePhase_QuoteRevisions_QuoteRevisionId",
                        column: x => x.QuoteRevisionId,
                        principalTable: "QuoteRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "QuoteTier",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteRevisionId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Summary = table.Column<string>(type: "text", nullable: false),
                    DiscountPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    DiscountReason = table.Column<string>(type: "text", nullable: false),
                    SuctionDesignId = table.Column<int>(type: "integer", nullable: true),
                    Scope = table.Column<string>(type: "text", nullable: false),
                    FanLifeYears = table.Column<int>(type: "integer", nullable: false),
                    DiscountAmount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    ElectricityPerYear_Cents = table.Column<long>(type: "bigint", nullable: false),
                    FanReplacement_Cents = table.Column<long>(type: "bigint", nullable: false),
                    HeatCablePerYear_Cents = table.Column<long>(type: "bigint", nullable: false),
                    HouseAirPerYear_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuoteTier", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuoteTier_Designs_SuctionDesignId",
                        column: x => x.SuctionDesignId,
                        principalTable: "Designs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_QuoteTier_QuoteRevisions_QuoteRevisionId",
                        column: x => x.QuoteRevisionId,
                        principalTable: "QuoteRevisions",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "CancelledSales",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    GivenOn = table.Column<DateOnly>(type: "date", nullable: false),
                    ReceivedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    OwedBackBy = table.Column<DateOnly>(type: "date", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    EnteredBy = table.Column<string>(type: "text", nullable: false),
                    EnteredAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CancelledSales", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CancelledSales_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CancelledSales_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CancelledSales_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "CancelNotices",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    AcceptanceHash = table.Column<string>(type: "text", nullable: false),
                    TypedName = table.Column<string>(type: "text", nullable: false),
                    Statement = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    TimeZone = table.Column<string>(type: "text", nullable: false),
                    CancelBy = table.Column<DateOnly>(type: "date", nullable: false),
                    OwedBackBy = table.Column<DateOnly>(type: "date", nullable: false),
                    IpAddress = table.Column<string>(type: "text", nullable: false),
                    UserAgent = table.Column<string>(type: "text", nullable: false),
                    QuoteLinkId = table.Column<int>(type: "integer", nullable: false),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: false),
                    PdfSha256 = table.Column<string>(type: "text", nullable: false),
                    PreviousHash = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CancelNotices", x => x.Id);
                    table.ForeignKey(
                        name: "FK_CancelNotices_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CancelNotices_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_CancelNotices_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Invoices",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    CustomerId = table.Column<int>(type: "integer", nullable: false),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: true),
                    CreditsInvoiceId = table.Column<int>(type: "integer", nullable: true),
                    OnceKey = table.Column<string>(type: "text", nullable: true),
                    Subject = table.Column<string>(type: "text", nullable: false),
                    Note = table.Column<string>(type: "text", nullable: false),
                    IssuedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    DueOn = table.Column<DateOnly>(type: "date", nullable: false),
                    IssuedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    IssuedBy = table.Column<string>(type: "text", nullable: false),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: false),
                    PdfSha256 = table.Column<string>(type: "text", nullable: false),
                    PreviousHash = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    Net_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Tax_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Total_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Invoices", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Invoices_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Invoices_Customers_CustomerId",
                        column: x => x.CustomerId,
                        principalTable: "Customers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Invoices_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Invoices_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Invoices_Invoices_CreditsInvoiceId",
                        column: x => x.CreditsInvoiceId,
                        principalTable: "Invoices",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Jobs",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: true),
                    ArriveAt = table.Column<TimeOnly>(type: "time without time zone", nullable: true),
                    Crew = table.Column<string>(type: "text", nullable: false),
                    DoneOn = table.Column<DateOnly>(type: "date", nullable: true),
                    CancelWindowWaiver = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    CalledOffBecause = table.Column<string>(type: "text", nullable: false),
                    PermitNumber = table.Column<string>(type: "text", nullable: false),
                    PermitAskedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    PermitGrantedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    PermitUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    DigTicket = table.Column<string>(type: "text", nullable: false),
                    DigFrom = table.Column<DateOnly>(type: "date", nullable: true),
                    DigUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    HoldBecause = table.Column<string>(type: "text", nullable: false),
                    HeldOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Jobs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Jobs_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Jobs_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ReturnVisits",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: false),
                    VisitedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    Done = table.Column<string>(type: "text", nullable: false),
                    EnteredBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReturnVisits", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReturnVisits_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ReturnVisits_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "QuoteLine",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    QuoteTierId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    PriceItemId = table.Column<int>(type: "integer", nullable: true),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Quantity = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Unit = table.Column<string>(type: "text", nullable: false),
                    LabourMinutes = table.Column<int>(type: "integer", nullable: false),
                    OfferedFor = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Taxable = table.Column<bool>(type: "boolean", nullable: false),
                    UnitCost_Cents = table.Column<long>(type: "bigint", nullable: false),
                    UnitPrice_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_QuoteLine", x => x.Id);
                    table.ForeignKey(
                        name: "FK_QuoteLine_QuoteTier_QuoteTierId",
                        column: x => x.QuoteTierId,
                        principalTable: "QuoteTier",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "InvoiceLine",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InvoiceId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Quantity = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Unit = table.Column<string>(type: "text", nullable: false),
                    DiscountPercent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Taxed = table.Column<bool>(type: "boolean", nullable: false),
                    CreditsLineId = table.Column<int>(type: "integer", nullable: true),
                    Amount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    UnitPrice_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_InvoiceLine", x => x.Id);
                    table.ForeignKey(
                        name: "FK_InvoiceLine_InvoiceLine_CreditsLineId",
                        column: x => x.CreditsLineId,
                        principalTable: "InvoiceLine",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_InvoiceLine_Invoices_InvoiceId",
                        column: x => x.InvoiceId,
                        principalTable: "Invoices",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "InvoiceTax",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InvoiceId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Percent = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Kinds = table.Column<string>(type: "text", nullable: false),
                    Amount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Taxed_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_InvoiceTax", x => x.Id);
                    table.ForeignKey(
                        name: "FK_InvoiceTax_Invoices_InvoiceId",
                        column: x => x.InvoiceId,
                        principalTable: "Invoices",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "Appointments",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Who = table.Column<string>(type: "text", nullable: false),
                    Phone = table.Column<string>(type: "text", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    At = table.Column<TimeOnly>(type: "time without time zone", nullable: true),
                    Words = table.Column<string>(type: "text", nullable: false),
                    ChangedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    CancelledAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Sequence = table.Column<int>(type: "integer", nullable: false),
                    CalendarUid = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Appointments", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Appointments_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Appointments_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ChangeOrders",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    TimeEffect = table.Column<string>(type: "text", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    CreatedBy = table.Column<string>(type: "text", nullable: false),
                    SentAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    ValidUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: true),
                    DeclineReason = table.Column<string>(type: "text", nullable: false),
                    Net_Cents = table.Column<long>(type: "bigint", nullable: false),
                    NewTotal_Cents = table.Column<long>(type: "bigint", nullable: false),
                    OldTotal_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Tax_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChangeOrders", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ChangeOrders_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ChangeOrders_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ChangeOrders_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ChangeOrders_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ChecklistStep",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Caution = table.Column<string>(type: "text", nullable: false),
                    CautionSource = table.Column<string>(type: "text", nullable: false),
                    DoneAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    DoneBy = table.Column<string>(type: "text", nullable: false),
                    NotNeededBecause = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChecklistStep", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ChecklistStep_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "JobPhotos",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    DocumentId = table.Column<int>(type: "integer", nullable: false),
                    Caption = table.Column<string>(type: "text", nullable: false),
                    InPacket = table.Column<bool>(type: "boolean", nullable: false),
                    TakenInAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    TakenInBy = table.Column<string>(type: "text", nullable: false),
                    WidthPx = table.Column<int>(type: "integer", nullable: false),
                    HeightPx = table.Column<int>(type: "integer", nullable: false),
                    Small = table.Column<byte[]>(type: "bytea", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_JobPhotos", x => x.Id);
                    table.ForeignKey(
                        name: "FK_JobPhotos_Documents_DocumentId",
                        column: x => x.DocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_JobPhotos_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_JobPhotos_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "MaterialUses",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    What = table.Column<string>(type: "text", nullable: false),
                    Unit = table.Column<string>(type: "text", nullable: false),
                    Planned = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Used = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    TakenOver = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_MaterialUses", x => x.Id);
                    table.ForeignKey(
                        name: "FK_MaterialUses_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Systems",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    JobId = table.Column<int>(type: "integer", nullable: true),
                    SuctionDesignId = table.Column<int>(type: "integer", nullable: true),
                    TagNumber = table.Column<string>(type: "text", nullable: false),
                    ActivatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    CompletedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    SystemType = table.Column<string>(type: "text", nullable: false),
                    SuctionPoints = table.Column<int>(type: "integer", nullable: false),
                    PipeSize = table.Column<string>(type: "text", nullable: false),
                    FanPlace = table.Column<string>(type: "text", nullable: false),
                    StartUpGaugePa = table.Column<double>(type: "double precision", nullable: true),
                    StartUpGaugeAsEntered = table.Column<string>(type: "text", nullable: false),
                    StartUpWatts = table.Column<double>(type: "double precision", nullable: true),
                    OutdoorC = table.Column<double>(type: "double precision", nullable: true),
                    Instrument = table.Column<string>(type: "text", nullable: false),
                    InstrumentId = table.Column<int>(type: "integer", nullable: true),
                    Backdraft = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    BackdraftNotes = table.Column<string>(type: "text", nullable: false),
                    LeftRunning = table.Column<bool>(type: "boolean", nullable: false),
                    DifferencesFromDesign = table.Column<string>(type: "text", nullable: false),
                    SecondBranch = table.Column<string>(type: "text", nullable: false),
                    TakenOverParts = table.Column<string>(type: "text", nullable: false),
                    Electrician = table.Column<string>(type: "text", nullable: false),
                    ElectricianLicence = table.Column<string>(type: "text", nullable: false),
                    WiringSignedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    LabelDocumentId = table.Column<int>(type: "integer", nullable: true),
                    PacketDocumentId = table.Column<int>(type: "integer", nullable: true),
                    Price_Cents = table.Column<long>(type: "bigint", nullable: false),
                    TakenOverCredit_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Systems", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Systems_Designs_SuctionDesignId",
                        column: x => x.SuctionDesignId,
                        principalTable: "Designs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Systems_Documents_LabelDocumentId",
                        column: x => x.LabelDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Systems_Documents_PacketDocumentId",
                        column: x => x.PacketDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Systems_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Systems_Instruments_InstrumentId",
                        column: x => x.InstrumentId,
                        principalTable: "Instruments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Systems_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ChangeLine",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ChangeOrderId = table.Column<int>(type: "integer", nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Of = table.Column<string>(type: "text", nullable: false),
                    WasWords = table.Column<string>(type: "text", nullable: false),
                    PriceItemId = table.Column<int>(type: "integer", nullable: true),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Quantity = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: false),
                    Unit = table.Column<string>(type: "text", nullable: false),
                    Priced = table.Column<bool>(type: "boolean", nullable: false),
                    Taxable = table.Column<bool>(type: "boolean", nullable: false),
                    UnitPrice_Cents = table.Column<long>(type: "bigint", nullable: false),
                    WasAmount_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChangeLine", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ChangeLine_ChangeOrders_ChangeOrderId",
                        column: x => x.ChangeOrderId,
                        principalTable: "ChangeOrders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ChangeLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ChangeOrderId = table.Column<int>(type: "integer", nullable: false),
                    TokenHash = table.Column<string>(type: "text", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ExpiresAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    HandedBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChangeLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ChangeLinks_ChangeOrders_ChangeOrderId",
                        column: x => x.ChangeOrderId,
                        principalTable: "ChangeOrders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ChangeSignatures",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ChangeOrderId = table.Column<int>(type: "integer", nullable: false),
                    Number = table.Column<string>(type: "text", nullable: false),
                    AcceptanceHash = table.Column<string>(type: "text", nullable: false),
                    LinesSha256 = table.Column<string>(type: "text", nullable: false),
                    TypedName = table.Column<string>(type: "text", nullable: false),
                    ConsentText = table.Column<string>(type: "text", nullable: false),
                    IntentText = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    TimeZone = table.Column<string>(type: "text", nullable: false),
                    IpAddress = table.Column<string>(type: "text", nullable: false),
                    UserAgent = table.Column<string>(type: "text", nullable: false),
                    ChangeLinkId = table.Column<int>(type: "integer", nullable: false),
                    HandedBy = table.Column<string>(type: "text", nullable: false),
                    PdfDocumentId = table.Column<int>(type: "integer", nullable: false),
                    PdfSha256 = table.Column<string>(type: "text", nullable: false),
                    SignedDocumentId = table.Column<int>(type: "integer", nullable: false),
                    SignedSha256 = table.Column<string>(type: "text", nullable: false),
                    PreviousHash = table.Column<string>(type: "text", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false),
                    NewTotal_Cents = table.Column<long>(type: "bigint", nullable: false),
                    OldTotal_Cents = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ChangeSignatures", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ChangeSignatures_ChangeOrders_ChangeOrderId",
                        column: x => x.ChangeOrderId,
                        principalTable: "ChangeOrders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ChangeSignatures_Documents_PdfDocumentId",
                        column: x => x.PdfDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ChangeSignatures_Documents_SignedDocumentId",
                        column: x => x.SignedDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "DraftCheck",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    Appliance = table.Column<string>(type: "text", nullable: false),
                    Result = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    SpilledMinutes = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DraftCheck", x => x.Id);
                    table.ForeignKey(
                        name: "FK_DraftCheck_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "FinalSuction",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    HoleLabel = table.Column<string>(type: "text", nullable: false),
                    SuctionPa = table.Column<double>(type: "double precision", nullable: false),
                    FanOffPa = table.Column<double>(type: "double precision", nullable: true),
                    PredictedPa = table.Column<double>(type: "double precision", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FinalSuction", x => x.Id);
                    table.ForeignKey(
                        name: "FK_FinalSuction_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "HandOvers",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    TypedName = table.Column<string>(type: "text", nullable: false),
                    Inspection = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Lines = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    Strokes = table.Column<string>(type: "text", nullable: false),
                    DocumentId = table.Column<int>(type: "integer", nullable: false),
                    DocumentSha256 = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_HandOvers", x => x.Id);
                    table.ForeignKey(
                        name: "FK_HandOvers_Documents_DocumentId",
                        column: x => x.DocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_HandOvers_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "RadonTests",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: true),
                    Reason = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    ClosedHouseFromUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    StartedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    EndedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    MadeBy = table.Column<string>(type: "text", nullable: false),
                    MadeByNumber = table.Column<string>(type: "text", nullable: false),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    StayedClosed = table.Column<bool>(type: "boolean", nullable: false),
                    TargetPCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Outcome = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    DecidingPCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    OutcomeWhy = table.Column<string>(type: "text", nullable: false),
                    JudgedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    LetterDocumentId = table.Column<int>(type: "integer", nullable: true),
                    LetterSentAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RadonTests", x => x.Id);
                    table.ForeignKey(
                        name: "FK_RadonTests_Documents_LetterDocumentId",
                        column: x => x.LetterDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RadonTests_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RadonTests_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Reminders",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: true),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: true),
                    RuleCode = table.Column<string>(type: "text", nullable: false),
                    Key = table.Column<string>(type: "text", nullable: false),
                    Because = table.Column<string>(type: "text", nullable: false),
                    DueOn = table.Column<DateOnly>(type: "date", nullable: false),
                    SendOn = table.Column<DateOnly>(type: "date", nullable: false),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    OutboxMessageId = table.Column<int>(type: "integer", nullable: true),
                    LetterRunId = table.Column<int>(type: "integer", nullable: true),
                    LetterDocumentId = table.Column<int>(type: "integer", nullable: true),
                    Note = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Reminders", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Reminders_Documents_LetterDocumentId",
                        column: x => x.LetterDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Reminders_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Reminders_LetterRuns_LetterRunId",
                        column: x => x.LetterRunId,
                        principalTable: "LetterRuns",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Reminders_Outbox_OutboxMessageId",
                        column: x => x.OutboxMessageId,
                        principalTable: "Outbox",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Reminders_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ReportEntries",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ReportRunId = table.Column<int>(type: "integer", nullable: false),
                    ProfileCode = table.Column<string>(type: "text", nullable: false),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    EventKey = table.Column<string>(type: "text", nullable: false),
                    CountsKey = table.Column<string>(type: "text", nullable: true),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Position = table.Column<int>(type: "integer", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Amends = table.Column<string>(type: "text", nullable: false),
                    Changed = table.Column<string>(type: "text", nullable: false),
                    RowJson = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReportEntries", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReportEntries_ReportRuns_ReportRunId",
                        column: x => x.ReportRunId,
                        principalTable: "ReportRuns",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ReportEntries_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ReportExclusions",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    ProfileCode = table.Column<string>(type: "text", nullable: false),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    Reason = table.Column<string>(type: "text", nullable: false),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    TakenBackAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    TakenBackBy = table.Column<string>(type: "text", nullable: false),
                    OpenKey = table.Column<string>(type: "text", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ReportExclusions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ReportExclusions_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "ServiceCalls",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Number = table.Column<string>(type: "text", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: true),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    AskedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ByOwnPage = table.Column<bool>(type: "boolean", nullable: false),
                    CallerName = table.Column<string>(type: "text", nullable: false),
                    CallerPhone = table.Column<string>(type: "text", nullable: false),
                    CallerEmail = table.Column<string>(type: "text", nullable: false),
                    Sign = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    GaugePa = table.Column<double>(type: "double precision", nullable: true),
                    GaugeAsEntered = table.Column<string>(type: "text", nullable: false),
                    OutdoorC = table.Column<double>(type: "double precision", nullable: true),
                    Found = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    Done = table.Column<string>(type: "text", nullable: false),
                    GaugeAfterPa = table.Column<double>(type: "double precision", nullable: true),
                    SettledOn = table.Column<DateOnly>(type: "date", nullable: true),
                    SettledBy = table.Column<string>(type: "text", nullable: false),
                    Cover = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    CalledOffBecause = table.Column<string>(type: "text", nullable: false),
                    SendingKey = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ServiceCalls", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ServiceCalls_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_ServiceCalls_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SystemComponent",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Model = table.Column<string>(type: "text", nullable: false),
                    FanId = table.Column<int>(type: "integer", nullable: true),
                    Serial = table.Column<string>(type: "text", nullable: false),
                    FittedOn = table.Column<DateOnly>(type: "date", nullable: false),
                    RemovedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    BatteryFittedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    WarrantyUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SystemComponent", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SystemComponent_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "SystemLinks",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    InstalledSystemId = table.Column<int>(type: "integer", nullable: false),
                    TokenHash = table.Column<string>(type: "text", nullable: false),
                    MadeFor = table.Column<string>(type: "text", nullable: false),
                    CreatedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    CreatedBy = table.Column<string>(type: "text", nullable: false),
                    RevokedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    RevokedBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SystemLinks", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SystemLinks_Systems_InstalledSystemId",
                        column: x => x.InstalledSystemId,
                        principalTable: "Systems",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "SecondPhases",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    AcceptanceId = table.Column<int>(type: "integer", nullable: false),
                    QuotePhaseId = table.Column<int>(type: "integer", nullable: false),
                    State = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    ValidUntil = table.Column<DateOnly>(type: "date", nullable: true),
                    RadonTestId = table.Column<int>(type: "integer", nullable: true),
                    DecidingPCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    Since = table.Column<DateOnly>(type: "date", nullable: true),
                    NextQuoteId = table.Column<int>(type: "integer", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_SecondPhases", x => x.Id);
                    table.ForeignKey(
                        name: "FK_SecondPhases_Acceptances_AcceptanceId",
                        column: x => x.AcceptanceId,
                        principalTable: "Acceptances",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SecondPhases_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SecondPhases_QuotePhase_QuotePhaseId",
                        column: x => x.QuotePhaseId,
                        principalTable: "QuotePhase",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SecondPhases_Quotes_NextQuoteId",
                        column: x => x.NextQuoteId,
                        principalTable: "Quotes",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_SecondPhases_RadonTests_RadonTestId",
                        column: x => x.RadonTestId,
                        principalTable: "RadonTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "TestDevice",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    RadonTestId = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Serial = table.Column<string>(type: "text", nullable: false),
                    Room = table.Column<string>(type: "text", nullable: false),
                    Pair = table.Column<string>(type: "text", nullable: false),
                    ApartM = table.Column<double>(type: "double precision", nullable: true),
                    HoursTakenOut = table.Column<int>(type: "integer", nullable: false),
                    CalibratedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    PCiL = table.Column<decimal>(type: "numeric(18,6)", precision: 18, scale: 6, nullable: true),
                    InstrumentId = table.Column<int>(type: "integer", nullable: true),
                    CalibrationDueOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TestDevice", x => x.Id);
                    table.ForeignKey(
                        name: "FK_TestDevice_Instruments_InstrumentId",
                        column: x => x.InstrumentId,
                        principalTable: "Instruments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_TestDevice_RadonTests_RadonTestId",
                        column: x => x.RadonTestId,
                        principalTable: "RadonTests",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "WorkDays",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    JobId = table.Column<int>(type: "integer", nullable: true),
                    ServiceCallId = table.Column<int>(type: "integer", nullable: true),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Part = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    ArriveAt = table.Column<TimeOnly>(type: "time without time zone", nullable: true),
                    ChangedAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    CancelledAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Sequence = table.Column<int>(type: "integer", nullable: false),
                    CalendarUid = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_WorkDays", x => x.Id);
                    table.ForeignKey(
                        name: "FK_WorkDays_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_WorkDays_Jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "Jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_WorkDays_ServiceCalls_ServiceCallId",
                        column: x => x.ServiceCallId,
                        principalTable: "ServiceCalls",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "RecallNotices",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    FanRecallId = table.Column<int>(type: "integer", nullable: false),
                    SystemComponentId = table.Column<int>(type: "integer", nullable: false),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    OutboxMessageId = table.Column<int>(type: "integer", nullable: true),
                    LetterDocumentId = table.Column<int>(type: "integer", nullable: true),
                    AtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_RecallNotices", x => x.Id);
                    table.ForeignKey(
                        name: "FK_RecallNotices_Documents_LetterDocumentId",
                        column: x => x.LetterDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RecallNotices_FanRecalls_FanRecallId",
                        column: x => x.FanRecallId,
                        principalTable: "FanRecalls",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RecallNotices_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RecallNotices_Outbox_OutboxMessageId",
                        column: x => x.OutboxMessageId,
                        principalTable: "Outbox",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_RecallNotices_SystemComponent_SystemComponentId",
                        column: x => x.SystemComponentId,
                        principalTable: "SystemComponent",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "MonitorRecords",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    TestDeviceId = table.Column<int>(type: "integer", nullable: false),
                    StoredDocumentId = table.Column<int>(type: "integer", nullable: false),
                    FromUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    HoursPCiL = table.Column<string>(type: "text", nullable: false),
                    Gaps = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Habit = table.Column<string>(type: "text", nullable: false),
                    DropFirstHours = table.Column<int>(type: "integer", nullable: false),
                    DeviceCorrectsStart = table.Column<bool>(type: "boolean", nullable: false),
                    Remarks = table.Column<string>(type: "text", nullable: false),
                    ReadAtUtc = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ReadBy = table.Column<string>(type: "text", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_MonitorRecords", x => x.Id);
                    table.ForeignKey(
                        name: "FK_MonitorRecords_Documents_StoredDocumentId",
                        column: x => x.StoredDocumentId,
                        principalTable: "Documents",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_MonitorRecords_TestDevice_TestDeviceId",
                        column: x => x.TestDeviceId,
                        principalTable: "TestDevice",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "TestKits",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    HouseId = table.Column<int>(type: "integer", nullable: false),
                    Kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    Serial = table.Column<string>(type: "text", nullable: false),
                    SerialKey = table.Column<string>(type: "text", nullable: false),
                    BatchId = table.Column<int>(type: "integer", nullable: true),
                    OutOn = table.Column<DateOnly>(type: "date", nullable: false),
                    HandedTo = table.Column<string>(type: "text", nullable: false),
                    IndependentTester = table.Column<bool>(type: "boolean", nullable: false),
                    TesterNumber = table.Column<string>(type: "text", nullable: false),
                    BackBy = table.Column<DateOnly>(type: "date", nullable: false),
                    AskedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    SentToLabOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Lab = table.Column<string>(type: "text", nullable: false),
                    LostOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Notes = table.Column<string>(type: "text", nullable: false),
                    TestDeviceId = table.Column<int>(type: "integer", nullable: true),
                    HasResult = table.Column<bool>(type: "boolean", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_TestKits", x => x.Id);
                    table.ForeignKey(
                        name: "FK_TestKits_Houses_HouseId",
                        column: x => x.HouseId,
                        principalTable: "Houses",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_TestKits_Instruments_BatchId",
                        column: x => x.BatchId,
                        principalTable: "Instruments",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_TestKits_TestDevice_TestDeviceId",
                        column: x => x.TestDeviceId,
                        principalTable: "TestDevice",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.SetNull);
                });

            migrationBuilder.CreateTable(
                name: "Bookings",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    WorkDayId = table.Column<int>(type: "integer", nullable: false),
                    Resource = table.Column<string>(type: "text", nullable: false),
                    PersonId = table.Column<int>(type: "integer", nullable: true),
                    VehicleId = table.Column<int>(type: "integer", nullable: true),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Day = table.Column<DateOnly>(type: "date", nullable: false),
                    Half = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    GivenBack = table.Column<int>(type: "integer", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Bookings", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Bookings_Staff_PersonId",
                        column: x => x.PersonId,
                        principalTable: "Staff",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Bookings_Vehicles_VehicleId",
                        column: x => x.VehicleId,
                        principalTable: "Vehicles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "FK_Bookings_WorkDays_WorkDayId",
                        column: x => x.WorkDayId,
                        principalTable: "WorkDays",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Acceptances_PdfDocumentId",
                table: "Acceptances",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_Acceptances_QuoteRevisionId",
                table: "Acceptances",
                column: "QuoteRevisionId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Acceptances_SignedDocumentId",
                table: "Acceptances",
                column: "SignedDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_Acceptances_SuctionDesignId",
                table: "Acceptances",
                column: "SuctionDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_Appliance_HouseId",
                table: "Appliance",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Appointments_CalendarUid",
                table: "Appointments",
                column: "CalendarUid",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Appointments_Day",
                table: "Appointments",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_Appointments_HouseId",
                table: "Appointments",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Appointments_JobId",
                table: "Appointments",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                table: "AspNetUserClaims",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                table: "AspNetUserLogins",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_Audit_HouseId",
                table: "Audit",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Audit_Subject_SubjectId",
                table: "Audit",
                columns: new[] { "Subject", "SubjectId" });

            migrationBuilder.CreateIndex(
                name: "IX_Backdrops_DocumentId",
                table: "Backdrops",
                column: "DocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_Backdrops_HouseId",
                table: "Backdrops",
                column: "HouseId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Bookings_PersonId",
                table: "Bookings",
                column: "PersonId");

            migrationBuilder.CreateIndex(
                name: "IX_Bookings_Resource_Day_Half_GivenBack",
                table: "Bookings",
                columns: new[] { "Resource", "Day", "Half", "GivenBack" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Bookings_VehicleId",
                table: "Bookings",
                column: "VehicleId");

            migrationBuilder.CreateIndex(
                name: "IX_Bookings_WorkDayId",
                table: "Bookings",
                column: "WorkDayId");

            migrationBuilder.CreateIndex(
                name: "IX_CalendarLinks_PersonId",
                table: "CalendarLinks",
                column: "PersonId");

            migrationBuilder.CreateIndex(
                name: "IX_CalendarLinks_TokenHash",
                table: "CalendarLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Calibration_InstrumentId",
                table: "Calibration",
                column: "InstrumentId");

            migrationBuilder.CreateIndex(
                name: "IX_CancelledSales_AcceptanceId",
                table: "CancelledSales",
                column: "AcceptanceId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_CancelledSales_CustomerId",
                table: "CancelledSales",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_CancelledSales_HouseId",
                table: "CancelledSales",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_CancelNotices_AcceptanceId",
                table: "CancelNotices",
                column: "AcceptanceId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_CancelNotices_HouseId",
                table: "CancelNotices",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_CancelNotices_PdfDocumentId",
                table: "CancelNotices",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeLine_ChangeOrderId",
                table: "ChangeLine",
                column: "ChangeOrderId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeLinks_ChangeOrderId",
                table: "ChangeLinks",
                column: "ChangeOrderId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeLinks_TokenHash",
                table: "ChangeLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ChangeOrders_AcceptanceId",
                table: "ChangeOrders",
                column: "AcceptanceId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeOrders_HouseId",
                table: "ChangeOrders",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeOrders_JobId_Position",
                table: "ChangeOrders",
                columns: new[] { "JobId", "Position" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ChangeOrders_Number",
                table: "ChangeOrders",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ChangeOrders_PdfDocumentId",
                table: "ChangeOrders",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeSignatures_ChangeOrderId",
                table: "ChangeSignatures",
                column: "ChangeOrderId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ChangeSignatures_PdfDocumentId",
                table: "ChangeSignatures",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ChangeSignatures_SignedDocumentId",
                table: "ChangeSignatures",
                column: "SignedDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ChecklistStep_JobId",
                table: "ChecklistStep",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_Climates_HouseId",
                table: "Climates",
                column: "HouseId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Counters_Series",
                table: "Counters",
                column: "Series",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Customers_Email",
                table: "Customers",
                column: "Email");

            migrationBuilder.CreateIndex(
                name: "IX_Customers_Search",
                table: "Customers",
                column: "Search");

            migrationBuilder.CreateIndex(
                name: "IX_Designs_FanId",
                table: "Designs",
                column: "FanId");

            migrationBuilder.CreateIndex(
                name: "IX_Designs_HouseId_Revision",
                table: "Designs",
                columns: new[] { "HouseId", "Revision" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Designs_PressureFieldTestId",
                table: "Designs",
                column: "PressureFieldTestId");

            migrationBuilder.CreateIndex(
                name: "IX_Documents_HouseId",
                table: "Documents",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_DraftCheck_InstalledSystemId",
                table: "DraftCheck",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_EarlierTest_HouseId",
                table: "EarlierTest",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_EducationCourse_LicenceId",
                table: "EducationCourse",
                column: "LicenceId");

            migrationBuilder.CreateIndex(
                name: "IX_ExposureDays_HouseId",
                table: "ExposureDays",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_ExposureDays_StaffMemberId_Day",
                table: "ExposureDays",
                columns: new[] { "StaffMemberId", "Day" });

            migrationBuilder.CreateIndex(
                name: "IX_FanPoint_FanId",
                table: "FanPoint",
                column: "FanId");

            migrationBuilder.CreateIndex(
                name: "IX_Fans_Model",
                table: "Fans",
                column: "Model",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_FanSetting_FanId",
                table: "FanSetting",
                column: "FanId");

            migrationBuilder.CreateIndex(
                name: "IX_FanSetting_PressureFieldTestId",
                table: "FanSetting",
                column: "PressureFieldTestId");

            migrationBuilder.CreateIndex(
                name: "IX_FinalSuction_InstalledSystemId",
                table: "FinalSuction",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_FoundationArea_HouseId",
                table: "FoundationArea",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_HandOvers_DocumentId",
                table: "HandOvers",
                column: "DocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_HandOvers_InstalledSystemId",
                table: "HandOvers",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_HoleReading_FanSettingId",
                table: "HoleReading",
                column: "FanSettingId");

            migrationBuilder.CreateIndex(
                name: "IX_HoleReading_TestHoleId_FanSettingId",
                table: "HoleReading",
                columns: new[] { "TestHoleId", "FanSettingId" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_HouseChanges_HouseId",
                table: "HouseChanges",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_HouseOwners_CustomerId",
                table: "HouseOwners",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_HouseOwners_HouseId",
                table: "HouseOwners",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Houses_AddressKey",
                table: "Houses",
                column: "AddressKey");

            migrationBuilder.CreateIndex(
                name: "IX_Houses_Search",
                table: "Houses",
                column: "Search");

            migrationBuilder.CreateIndex(
                name: "IX_Instruments_SerialKey_Kind",
                table: "Instruments",
                columns: new[] { "SerialKey", "Kind" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_InvoiceLine_CreditsLineId",
                table: "InvoiceLine",
                column: "CreditsLineId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_InvoiceLine_InvoiceId",
                table: "InvoiceLine",
                column: "InvoiceId");

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_AcceptanceId",
                table: "Invoices",
                column: "AcceptanceId");

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_CreditsInvoiceId",
                table: "Invoices",
                column: "CreditsInvoiceId");

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_CustomerId",
                table: "Invoices",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_DueOn",
                table: "Invoices",
                column: "DueOn");

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_HouseId_CustomerId",
                table: "Invoices",
                columns: new[] { "HouseId", "CustomerId" });

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_Number",
                table: "Invoices",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_OnceKey",
                table: "Invoices",
                column: "OnceKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Invoices_PdfDocumentId",
                table: "Invoices",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_InvoiceTax_InvoiceId",
                table: "InvoiceTax",
                column: "InvoiceId");

            migrationBuilder.CreateIndex(
                name: "IX_JobPhotos_DocumentId",
                table: "JobPhotos",
                column: "DocumentId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_JobPhotos_HouseId",
                table: "JobPhotos",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_JobPhotos_JobId",
                table: "JobPhotos",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_AcceptanceId",
                table: "Jobs",
                column: "AcceptanceId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_HouseId",
                table: "Jobs",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Number",
                table: "Jobs",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_LetterRuns_LabelsDocumentId",
                table: "LetterRuns",
                column: "LabelsDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_LetterRuns_PdfDocumentId",
                table: "LetterRuns",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_MaterialUses_JobId",
                table: "MaterialUses",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_MonitorRecords_StoredDocumentId",
                table: "MonitorRecords",
                column: "StoredDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_MonitorRecords_TestDeviceId",
                table: "MonitorRecords",
                column: "TestDeviceId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Outbox_HouseId",
                table: "Outbox",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Outbox_Key",
                table: "Outbox",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Outbox_State_NextTryUtc",
                table: "Outbox",
                columns: new[] { "State", "NextTryUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_OwnCorrections_Of",
                table: "OwnCorrections",
                column: "Of");

            migrationBuilder.CreateIndex(
                name: "IX_OwnerLinks_CustomerId",
                table: "OwnerLinks",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_OwnerLinks_HouseId",
                table: "OwnerLinks",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_OwnerLinks_TokenHash",
                table: "OwnerLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_OwnerWords_CustomerId",
                table: "OwnerWords",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_OwnerWords_HouseId",
                table: "OwnerWords",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_OwnerWords_SettledAtUtc",
                table: "OwnerWords",
                column: "SettledAtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Payments_CustomerId",
                table: "Payments",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_Payments_HouseId_CustomerId",
                table: "Payments",
                columns: new[] { "HouseId", "CustomerId" });

            migrationBuilder.CreateIndex(
                name: "IX_Payments_UndoesPaymentId",
                table: "Payments",
                column: "UndoesPaymentId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_PressureFieldTests_HouseId",
                table: "PressureFieldTests",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_PressureFieldTests_InstrumentId",
                table: "PressureFieldTests",
                column: "InstrumentId");

            migrationBuilder.CreateIndex(
                name: "IX_PriceBookVersions_Number",
                table: "PriceBookVersions",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_PriceChange_PriceBookVersionId",
                table: "PriceChange",
                column: "PriceBookVersionId");

            migrationBuilder.CreateIndex(
                name: "IX_PriceChange_PriceItemId",
                table: "PriceChange",
                column: "PriceItemId");

            migrationBuilder.CreateIndex(
                name: "IX_PriceItems_Code",
                table: "PriceItems",
                column: "Code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QualityActions_Point",
                table: "QualityActions",
                column: "Point",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QualityChecks_Day",
                table: "QualityChecks",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteAddOn_QuoteRevisionId",
                table: "QuoteAddOn",
                column: "QuoteRevisionId");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteLine_QuoteTierId",
                table: "QuoteLine",
                column: "QuoteTierId");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteLinks_QuoteRevisionId",
                table: "QuoteLinks",
                column: "QuoteRevisionId");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteLinks_TokenHash",
                table: "QuoteLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QuoteNudges_OutboxMessageId",
                table: "QuoteNudges",
                column: "OutboxMessageId");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteNudges_QuoteRevisionId_AfterDays",
                table: "QuoteNudges",
                columns: new[] { "QuoteRevisionId", "AfterDays" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QuotePhase_QuoteRevisionId",
                table: "QuotePhase",
                column: "QuoteRevisionId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QuoteRevisions_PdfDocumentId",
                table: "QuoteRevisions",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteRevisions_QuoteId_Letter",
                table: "QuoteRevisions",
                columns: new[] { "QuoteId", "Letter" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QuoteRevisions_SuctionDesignId",
                table: "QuoteRevisions",
                column: "SuctionDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_Quotes_CustomerId",
                table: "Quotes",
                column: "CustomerId");

            migrationBuilder.CreateIndex(
                name: "IX_Quotes_HouseId",
                table: "Quotes",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Quotes_Number",
                table: "Quotes",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_QuoteTier_QuoteRevisionId",
                table: "QuoteTier",
                column: "QuoteRevisionId");

            migrationBuilder.CreateIndex(
                name: "IX_QuoteTier_SuctionDesignId",
                table: "QuoteTier",
                column: "SuctionDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_RadonTests_HouseId",
                table: "RadonTests",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_RadonTests_InstalledSystemId",
                table: "RadonTests",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_RadonTests_LetterDocumentId",
                table: "RadonTests",
                column: "LetterDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_RecallNotices_FanRecallId_SystemComponentId",
                table: "RecallNotices",
                columns: new[] { "FanRecallId", "SystemComponentId" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_RecallNotices_HouseId",
                table: "RecallNotices",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_RecallNotices_LetterDocumentId",
                table: "RecallNotices",
                column: "LetterDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_RecallNotices_OutboxMessageId",
                table: "RecallNotices",
                column: "OutboxMessageId");

            migrationBuilder.CreateIndex(
                name: "IX_RecallNotices_SystemComponentId",
                table: "RecallNotices",
                column: "SystemComponentId");

            migrationBuilder.CreateIndex(
                name: "IX_ReminderRules_Code",
                table: "ReminderRules",
                column: "Code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_HouseId",
                table: "Reminders",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_InstalledSystemId",
                table: "Reminders",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_Key",
                table: "Reminders",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_LetterDocumentId",
                table: "Reminders",
                column: "LetterDocumentId",
                filter: "\"LetterDocumentId\" IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_LetterRunId",
                table: "Reminders",
                column: "LetterRunId",
                filter: "\"LetterRunId\" IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_OutboxMessageId",
                table: "Reminders",
                column: "OutboxMessageId",
                filter: "\"OutboxMessageId\" IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "IX_Reminders_State_SendOn",
                table: "Reminders",
                columns: new[] { "State", "SendOn" });

            migrationBuilder.CreateIndex(
                name: "IX_ReportDuties_ProfileCode",
                table: "ReportDuties",
                column: "ProfileCode",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportEntries_InstalledSystemId",
                table: "ReportEntries",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_ReportEntries_ProfileCode_CountsKey",
                table: "ReportEntries",
                columns: new[] { "ProfileCode", "CountsKey" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportEntries_ReportRunId_Position",
                table: "ReportEntries",
                columns: new[] { "ReportRunId", "Position" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportExclusions_InstalledSystemId",
                table: "ReportExclusions",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_ReportExclusions_OpenKey",
                table: "ReportExclusions",
                column: "OpenKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportExclusions_ProfileCode_InstalledSystemId",
                table: "ReportExclusions",
                columns: new[] { "ProfileCode", "InstalledSystemId" });

            migrationBuilder.CreateIndex(
                name: "IX_ReportProfiles_Code_Edition",
                table: "ReportProfiles",
                columns: new[] { "Code", "Edition" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportRuns_CsvDocumentId",
                table: "ReportRuns",
                column: "CsvDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ReportRuns_PdfDocumentId",
                table: "ReportRuns",
                column: "PdfDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ReportRuns_ProfileCode_Number",
                table: "ReportRuns",
                columns: new[] { "ProfileCode", "Number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportRuns_ProfileCode_Period",
                table: "ReportRuns",
                columns: new[] { "ProfileCode", "Period" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReportRuns_XlsxDocumentId",
                table: "ReportRuns",
                column: "XlsxDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_ReportSendings_ReportRunId",
                table: "ReportSendings",
                column: "ReportRunId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReturnedMail_Address_ReceivedAtUtc",
                table: "ReturnedMail",
                columns: new[] { "Address", "ReceivedAtUtc" });

            migrationBuilder.CreateIndex(
                name: "IX_ReturnedMail_Key",
                table: "ReturnedMail",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ReturnedMail_OutboxMessageId",
                table: "ReturnedMail",
                column: "OutboxMessageId");

            migrationBuilder.CreateIndex(
                name: "IX_ReturnVisits_AcceptanceId",
                table: "ReturnVisits",
                column: "AcceptanceId");

            migrationBuilder.CreateIndex(
                name: "IX_ReturnVisits_HouseId",
                table: "ReturnVisits",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_RoutePiece_SuctionDesignId",
                table: "RoutePiece",
                column: "SuctionDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_RuleSets_Key_Edition",
                table: "RuleSets",
                columns: new[] { "Key", "Edition" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SecondPhases_AcceptanceId",
                table: "SecondPhases",
                column: "AcceptanceId",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SecondPhases_HouseId",
                table: "SecondPhases",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_SecondPhases_NextQuoteId",
                table: "SecondPhases",
                column: "NextQuoteId");

            migrationBuilder.CreateIndex(
                name: "IX_SecondPhases_QuotePhaseId",
                table: "SecondPhases",
                column: "QuotePhaseId");

            migrationBuilder.CreateIndex(
                name: "IX_SecondPhases_RadonTestId",
                table: "SecondPhases",
                column: "RadonTestId");

            migrationBuilder.CreateIndex(
                name: "IX_SecondPhases_State_ValidUntil",
                table: "SecondPhases",
                columns: new[] { "State", "ValidUntil" });

            migrationBuilder.CreateIndex(
                name: "IX_ServiceCalls_HouseId",
                table: "ServiceCalls",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_ServiceCalls_InstalledSystemId",
                table: "ServiceCalls",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_ServiceCalls_Number",
                table: "ServiceCalls",
                column: "Number",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ServiceCalls_SendingKey",
                table: "ServiceCalls",
                column: "SendingKey",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_ServiceCalls_State",
                table: "ServiceCalls",
                column: "State");

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                table: "Staff",
                column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "Staff",
                column: "NormalizedUserName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_StepTexts_Kind_Code",
                table: "StepTexts",
                columns: new[] { "Kind", "Code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Submissions_Key",
                table: "Submissions",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_SuctionBranch_PressureFieldTestId",
                table: "SuctionBranch",
                column: "PressureFieldTestId");

            migrationBuilder.CreateIndex(
                name: "IX_SuctionBranch_SuctionDesignId",
                table: "SuctionBranch",
                column: "SuctionDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_SuctionHole_PressureFieldTestId",
                table: "SuctionHole",
                column: "PressureFieldTestId");

            migrationBuilder.CreateIndex(
                name: "IX_Suppressions_Address",
                table: "Suppressions",
                column: "Address");

            migrationBuilder.CreateIndex(
                name: "IX_SystemComponent_InstalledSystemId",
                table: "SystemComponent",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_SystemLinks_InstalledSystemId",
                table: "SystemLinks",
                column: "InstalledSystemId");

            migrationBuilder.CreateIndex(
                name: "IX_SystemLinks_TokenHash",
                table: "SystemLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Systems_ActivatedAtUtc",
                table: "Systems",
                column: "ActivatedAtUtc");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_HouseId",
                table: "Systems",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_InstrumentId",
                table: "Systems",
                column: "InstrumentId");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_JobId",
                table: "Systems",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_LabelDocumentId",
                table: "Systems",
                column: "LabelDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_PacketDocumentId",
                table: "Systems",
                column: "PacketDocumentId");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_SuctionDesignId",
                table: "Systems",
                column: "SuctionDesignId");

            migrationBuilder.CreateIndex(
                name: "IX_Systems_TagNumber",
                table: "Systems",
                column: "TagNumber",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_TestDevice_InstrumentId",
                table: "TestDevice",
                column: "InstrumentId");

            migrationBuilder.CreateIndex(
                name: "IX_TestDevice_RadonTestId",
                table: "TestDevice",
                column: "RadonTestId");

            migrationBuilder.CreateIndex(
                name: "IX_TestHole_PressureFieldTestId",
                table: "TestHole",
                column: "PressureFieldTestId");

            migrationBuilder.CreateIndex(
                name: "IX_TestKits_BatchId",
                table: "TestKits",
                column: "BatchId");

            migrationBuilder.CreateIndex(
                name: "IX_TestKits_HouseId",
                table: "TestKits",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_TestKits_SerialKey",
                table: "TestKits",
                column: "SerialKey");

            migrationBuilder.CreateIndex(
                name: "IX_TestKits_TestDeviceId",
                table: "TestKits",
                column: "TestDeviceId");

            migrationBuilder.CreateIndex(
                name: "IX_UnsubscribeLinks_TokenHash",
                table: "UnsubscribeLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_WorkDays_CalendarUid",
                table: "WorkDays",
                column: "CalendarUid",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_WorkDays_Day",
                table: "WorkDays",
                column: "Day");

            migrationBuilder.CreateIndex(
                name: "IX_WorkDays_HouseId",
                table: "WorkDays",
                column: "HouseId");

            migrationBuilder.CreateIndex(
                name: "IX_WorkDays_JobId",
                table: "WorkDays",
                column: "JobId");

            migrationBuilder.CreateIndex(
                name: "IX_WorkDays_ServiceCallId",
                table: "WorkDays",
                column: "ServiceCallId");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Appliance");

            migrationBuilder.DropTable(
                name: "Appointments");

            migrationBuilder.DropTable(
                name: "AspNetUserClaims");

            migrationBuilder.DropTable(
                name: "AspNetUserLogins");

            migrationBuilder.DropTable(
                name: "AspNetUserTokens");

            migrationBuilder.DropTable(
                name: "Audit");

            migrationBuilder.DropTable(
                name: "Backdrops");

            migrationBuilder.DropTable(
                name: "Bookings");

            migrationBuilder.DropTable(
                name: "CalendarLinks");

            migrationBuilder.DropTable(
                name: "Calibration");

            migrationBuilder.DropTable(
                name: "CancelledSales");

            migrationBuilder.DropTable(
                name: "CancelNotices");

            migrationBuilder.DropTable(
                name: "ChangeLine");

            migrationBuilder.DropTable(
                name: "ChangeLinks");

            migrationBuilder.DropTable(
                name: "ChangeSignatures");

            migrationBuilder.DropTable(
                name: "ChecklistStep");

            migrationBuilder.DropTable(
                name: "Climates");

            migrationBuilder.DropTable(
                name: "Company");

            migrationBuilder.DropTable(
                name: "Counters");

            migrationBuilder.DropTable(
                name: "DraftCheck");

            migrationBuilder.DropTable(
                name: "EarlierTest");

            migrationBuilder.DropTable(
                name: "EducationCourse");

            migrationBuilder.DropTable(
                name: "ExposureDays");

            migrationBuilder.DropTable(
                name: "FanPoint");

            migrationBuilder.DropTable(
                name: "FinalSuction");

            migrationBuilder.DropTable(
                name: "FoundationArea");

            migrationBuilder.DropTable(
                name: "HandOvers");

            migrationBuilder.DropTable(
                name: "HoleReading");

            migrationBuilder.DropTable(
                name: "HouseChanges");

            migrationBuilder.DropTable(
                name: "HouseOwners");

            migrationBuilder.DropTable(
                name: "InvoiceLine");

            migrationBuilder.DropTable(
                name: "InvoiceTax");

            migrationBuilder.DropTable(
                name: "JobPhotos");

            migrationBuilder.DropTable(
                name: "MaterialUses");

            migrationBuilder.DropTable(
                name: "MonitorRecords");

            migrationBuilder.DropTable(
                name: "NudgeRules");

            migrationBuilder.DropTable(
                name: "OutboxGates");

            migrationBuilder.DropTable(
                name: "OwnCorrections");

            migrationBuilder.DropTable(
                name: "OwnerLinks");

            migrationBuilder.DropTable(
                name: "OwnerWords");

            migrationBuilder.DropTable(
                name: "Payments");

            migrationBuilder.DropTable(
                name: "PriceChange");

            migrationBuilder.DropTable(
                name: "PriceItems");

            migrationBuilder.DropTable(
                name: "QualityActions");

            migrationBuilder.DropTable(
                name: "QualityChecks");

            migrationBuilder.DropTable(
                name: "QuoteAddOn");

            migrationBuilder.DropTable(
                name: "QuoteLine");

            migrationBuilder.DropTable(
                name: "QuoteLinks");

            migrationBuilder.DropTable(
                name: "QuoteNudges");

            migrationBuilder.DropTable(
                name: "RecallNotices");

            migrationBuilder.DropTable(
                name: "ReminderRules");

            migrationBuilder.DropTable(
                name: "Reminders");

            migrationBuilder.DropTable(
                name: "ReportDuties");

            migrationBuilder.DropTable(
                name: "ReportEntries");

            migrationBuilder.DropTable(
                name: "ReportExclusions");

            migrationBuilder.DropTable(
                name: "ReportProfiles");

            migrationBuilder.DropTable(
                name: "ReportSendings");

            migrationBuilder.DropTable(
                name: "ReturnedMail");

            migrationBuilder.DropTable(
                name: "ReturnVisits");

            migrationBuilder.DropTable(
                name: "RoutePiece");

            migrationBuilder.DropTable(
                name: "RuleSets");

            migrationBuilder.DropTable(
                name: "SecondPhases");

            migrationBuilder.DropTable(
                name: "StepTexts");

            migrationBuilder.DropTable(
                name: "Submissions");

            migrationBuilder.DropTable(
                name: "SuctionBranch");

            migrationBuilder.DropTable(
                name: "SuctionHole");

            migrationBuilder.DropTable(
                name: "Suppressions");

            migrationBuilder.DropTable(
                name: "SystemLinks");

            migrationBuilder.DropTable(
                name: "TaxRates");

            migrationBuilder.DropTable(
                name: "TestKits");

            migrationBuilder.DropTable(
                name: "UnsubscribeLinks");

            migrationBuilder.DropTable(
                name: "Vehicles");

            migrationBuilder.DropTable(
                name: "WorkDays");

            migrationBuilder.DropTable(
                name: "ChangeOrders");

            migrationBuilder.DropTable(
                name: "Licences");

            migrationBuilder.DropTable(
                name: "Staff");

            migrationBuilder.DropTable(
                name: "FanSetting");

            migrationBuilder.DropTable(
                name: "TestHole");

            migrationBuilder.DropTable(
                name: "Invoices");

            migrationBuilder.DropTable(
                name: "PriceBookVersions");

            migrationBuilder.DropTable(
                name: "QuoteTier");

            migrationBuilder.DropTable(
                name: "FanRecalls");

            migrationBuilder.DropTable(
                name: "SystemComponent");

            migrationBuilder.DropTable(
                name: "LetterRuns");

            migrationBuilder.DropTable(
                name: "ReportRuns");

            migrationBuilder.DropTable(
                name: "Outbox");

            migrationBuilder.DropTable(
                name: "QuotePhase");

            migrationBuilder.DropTable(
                name: "TestDevice");

            migrationBuilder.DropTable(
                name: "ServiceCalls");

            migrationBuilder.DropTable(
                name: "RadonTests");

            migrationBuilder.DropTable(
                name: "Systems");

            migrationBuilder.DropTable(
                name: "Jobs");

            migrationBuilder.DropTable(
                name: "Acceptances");

            migrationBuilder.DropTable(
                name: "QuoteRevisions");

            migrationBuilder.DropTable(
                name: "Designs");

            migrationBuilder.DropTable(
                name: "Documents");

            migrationBuilder.DropTable(
                name: "Quotes");

            migrationBuilder.DropTable(
                name: "Fans");

            migrationBuilder.DropTable(
                name: "PressureFieldTests");

            migrationBuilder.DropTable(
                name: "Customers");

            migrationBuilder.DropTable(
                name: "Houses");

            migrationBuilder.DropTable(
                name: "Instruments");
        }
    }
}
