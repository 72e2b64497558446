using System.Linq.Expressions;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Invoices;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Messages.Returned;
using MitigationOffice.Business.Quality;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Staff;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Tests.Monitor;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Data;

/// <summary>The office's records on SQLite or PostgreSQL: one model, two sets of migrations.</summary>
public sealed partial class OfficeDb(DbContextOptions<OfficeDb> options, TimeProvider clock, Actor actor)
    : IdentityUserContext<StaffMember, int>(options)
{
    public DbSet<CompanyProfile> Company => Set<CompanyProfile>();
    public DbSet<Licence> Licences => Set<Licence>();
    public DbSet<Instrument> Instruments => Set<Instrument>();
    public DbSet<PriceItem> PriceItems => Set<PriceItem>();
    public DbSet<PriceBookVersion> PriceBookVersions => Set<PriceBookVersion>();
    public DbSet<Fan> Fans => Set<Fan>();
    public DbSet<RuleSetEdition> RuleSets => Set<RuleSetEdition>();
    public DbSet<Customer> Customers => Set<Customer>();
    public DbSet<House> Houses => Set<House>();
    public DbSet<PlanBackdrop> Backdrops => Set<PlanBackdrop>();
    public DbSet<HouseClimate> Climates => Set<HouseClimate>();
    public DbSet<HouseOwner> HouseOwners => Set<HouseOwner>();
    public DbSet<PressureFieldTest> PressureFieldTests => Set<PressureFieldTest>();
    public DbSet<SuctionDesign> Designs => Set<SuctionDesign>();
    public DbSet<Quote> Quotes => Set<Quote>();
    public DbSet<QuoteRevision> QuoteRevisions => Set<QuoteRevision>();
    public DbSet<QuoteLink> QuoteLinks => Set<QuoteLink>();
    public DbSet<Acceptance> Acceptances => Set<Acceptance>();
    public DbSet<SecondPhase> SecondPhases => Set<SecondPhase>();
    public DbSet<ReturnVisit> ReturnVisits => Set<ReturnVisit>();
    public DbSet<Job> Jobs => Set<Job>();
    public DbSet<WorkDay> WorkDays => Set<WorkDay>();
    public DbSet<Booking> Bookings => Set<Booking>();
    public DbSet<Appointment> Appointments => Set<Appointment>();
    public DbSet<CalendarLink> CalendarLinks => Set<CalendarLink>();
    public DbSet<MaterialUse> MaterialUses => Set<MaterialUse>();
    public DbSet<JobPhoto> JobPhotos => Set<JobPhoto>();
    public DbSet<StepText> StepTexts => Set<StepText>();
    public DbSet<Vehicle> Vehicles => Set<Vehicle>();
    public DbSet<InstalledSystem> Systems => Set<InstalledSystem>();
    public DbSet<SystemLink> SystemLinks => Set<SystemLink>();
    public DbSet<HandOver> HandOvers => Set<HandOver>();
    public DbSet<ServiceCall> ServiceCalls => Set<ServiceCall>();
    public DbSet<FanRecall> FanRecalls => Set<FanRecall>();
    public DbSet<RecallNotice> RecallNotices => Set<RecallNotice>();
    public DbSet<OwnCorrection> OwnCorrections => Set<OwnCorrection>();
    public DbSet<RadonTest> RadonTests => Set<RadonTest>();
    public DbSet<MonitorRecord> MonitorRecords => Set<MonitorRecord>();
    public DbSet<TestKit> TestKits => Set<TestKit>();
    public DbSet<ReminderRule> ReminderRules => Set<ReminderRule>();
    public DbSet<Reminder> Reminders => Set<Reminder>();
    public DbSet<NudgeRule> NudgeRules => Set<NudgeRule>();
    public DbSet<QuoteNudge> QuoteNudges => Set<QuoteNudge>();
    public DbSet<OutboxMessage> Outbox => Set<OutboxMessage>();
    public DbSet<OutboxGate> OutboxGates => Set<OutboxGate>();
    public DbSet<Suppression> Suppressions => Set<Suppression>();
    public DbSet<UnsubscribeLink> UnsubscribeLinks => Set<UnsubscribeLink>();
    public DbSet<ReturnedMail> ReturnedMail => Set<ReturnedMail>();
    public DbSet<LetterRun> LetterRuns => Set<LetterRun>();
    public DbSet<OwnerLink> OwnerLinks => Set<OwnerLink>();
    public DbSet<OwnerWord> OwnerWords => Set<OwnerWord>();
    public DbSet<HouseChange> HouseChanges => Set<HouseChange>();
    public DbSet<ReportRun> ReportRuns => Set<ReportRun>();
    public DbSet<ReportEntry> ReportEntries => Set<ReportEntry>();
    public DbSet<ReportSending> ReportSendings => Set<ReportSending>();
    public DbSet<ReportExclusion> ReportExclusions => Set<ReportExclusion>();
    public DbSet<ReportDuty> ReportDuties => Set<ReportDuty>();
    public DbSet<KeptProfile> ReportProfiles => Set<KeptProfile>();
    public DbSet<TaxRate> TaxRates => Set<TaxRate>();
    public DbSet<Invoice> Invoices => Set<Invoice>();
    public DbSet<Payment> Payments => Set<Payment>();
    public DbSet<CancelledSale> CancelledSales => Set<CancelledSale>();
    public DbSet<CancelNotice> CancelNotices => Set<CancelNotice>();
    public DbSet<ChangeOrder> ChangeOrders => Set<ChangeOrder>();
    public DbSet<ChangeLink> ChangeLinks => Set<ChangeLink>();
    public DbSet<ChangeSignature> ChangeSignatures => Set<ChangeSignature>();
    public DbSet<QualityCheck> QualityChecks => Set<QualityCheck>();
    public DbSet<QualityAction> QualityActions => Set<QualityAction>();
    public DbSet<ExposureDay> ExposureDays => Set<ExposureDay>();
    public DbSet<StoredDocument> Documents => Set<StoredDocument>();
    public DbSet<AuditEntry> Audit => Set<AuditEntry>();
    public DbSet<Counter> Counters => Set<Counter>();
    public DbSet<Submission> Submissions => Set<Submission>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<DateTime>().HaveConversion<UtcInstant>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);
        configurationBuilder.Properties<decimal>().HavePrecision(18, 6);
    }

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.Entity<StaffMember>().ToTable("Staff");
        builder.Entity<HouseOwner>().HasOne(o => o.House).WithMany(h => h.Owners).OnDelete(DeleteBehavior.Restrict);
        builder.Entity<HouseOwner>().HasOne(o => o.Customer).WithMany().OnDelete(DeleteBehavior.Restrict);
        builder.Entity<QuoteRevision>().HasOne(r => r.Quote).WithMany(q => q.Revisions).OnDelete(DeleteBehavior.Restrict);
        Refer<PlanBackdrop, House>(builder, x => x.HouseId);
        Refer<PlanBackdrop, StoredDocument>(builder, x => x.DocumentId);
        builder.Entity<QuoteRevision>().HasOne(r => r.Phase).WithOne().HasForeignKey<QuotePhase>(p => p.QuoteRevisionId).OnDelete(DeleteBehavior.Cascade);
        Refer<HouseClimate, House>(builder, x => x.HouseId);
        Refer<PressureFieldTest, House>(builder, x => x.HouseId);
        Refer<PressureFieldTest, Instrument>(builder, x => x.InstrumentId!);
        Refer<SuctionDesign, House>(builder, x => x.HouseId);
        Refer<SuctionDesign, PressureFieldTest>(builder, x => x.PressureFieldTestId!);
        Refer<SuctionDesign, Fan>(builder, x => x.FanId!);
        Refer<SuctionBranch, PressureFieldTest>(builder, x => x.PressureFieldTestId!);
        Refer<FanSetting, Fan>(builder, x => x.FanId!);
        builder.Entity<HoleReading>().HasOne<FanSetting>().WithMany().HasForeignKey(x => x.FanSettingId).OnDelete(DeleteBehavior.Cascade);
        Refer<Quote, House>(builder, x => x.HouseId);
        Refer<Quote, Customer>(builder, x => x.CustomerId);
        Refer<QuoteRevision, SuctionDesign>(builder, x => x.SuctionDesignId!);
        Refer<QuoteTier, SuctionDesign>(builder, x => x.SuctionDesignId!);
        Refer<QuoteRevision, StoredDocument>(builder, x => x.PdfDocumentId!);
        Refer<QuoteLink, QuoteRevision>(builder, x => x.QuoteRevisionId);
        Refer<Acceptance, QuoteRevision>(builder, x => x.QuoteRevisionId);
        Refer<Acceptance, SuctionDesign>(builder, x => x.SuctionDesignId!);
        Refer<Acceptance, StoredDocument>(builder, x => x.PdfDocumentId);
        Refer<Acceptance, StoredDocument>(builder, x => x.SignedDocumentId);
        Refer<SecondPhase, House>(builder, x => x.HouseId);
        Refer<SecondPhase, Acceptance>(builder, x => x.AcceptanceId);
        Refer<SecondPhase, QuotePhase>(builder, x => x.QuotePhaseId);
        Refer<SecondPhase, RadonTest>(builder, x => x.RadonTestId!);
        Refer<SecondPhase, Quote>(builder, x => x.NextQuoteId!);
        Refer<ReturnVisit, House>(builder, x => x.HouseId);
        Refer<ReturnVisit, Acceptance>(builder, x => x.AcceptanceId);
        Refer<QuoteNudge, QuoteRevision>(builder, x => x.QuoteRevisionId);
        Refer<QuoteNudge, OutboxMessage>(builder, x => x.OutboxMessageId);
        Refer<Job, House>(builder, x => x.HouseId);
        Refer<Job, Acceptance>(builder, x => x.AcceptanceId);
        Refer<WorkDay, House>(builder, x => x.HouseId);
        Refer<WorkDay, Job>(builder, x => x.JobId!);
        Refer<WorkDay, ServiceCall>(builder, x => x.ServiceCallId!);
        Refer<Booking, StaffMember>(builder, x => x.PersonId!);
        Refer<Booking, Vehicle>(builder, x => x.VehicleId!);
        Refer<Appointment, Job>(builder, x => x.JobId);
        Refer<Appointment, House>(builder, x => x.HouseId);
        Refer<CalendarLink, StaffMember>(builder, x => x.PersonId);
        Refer<MaterialUse, Job>(builder, x => x.JobId);
        Refer<JobPhoto, House>(builder, x => x.HouseId);
        Refer<JobPhoto, Job>(builder, x => x.JobId);
        Refer<JobPhoto, StoredDocument>(builder, x => x.DocumentId);
        Refer<InstalledSystem, House>(builder, x => x.HouseId);
        Refer<InstalledSystem, Job>(builder, x => x.JobId!);
        Refer<InstalledSystem, SuctionDesign>(builder, x => x.SuctionDesignId!);
        Refer<InstalledSystem, Instrument>(builder, x => x.InstrumentId!);
        Refer<InstalledSystem, StoredDocument>(builder, x => x.LabelDocumentId!);
        Refer<InstalledSystem, StoredDocument>(builder, x => x.PacketDocumentId!);
        Refer<SystemLink, InstalledSystem>(builder, x => x.InstalledSystemId);
        Refer<HandOver, InstalledSystem>(builder, x => x.InstalledSystemId);
        Refer<HandOver, StoredDocument>(builder, x => x.DocumentId);
        Refer<ServiceCall, House>(builder, x => x.HouseId);
        Refer<ServiceCall, InstalledSystem>(builder, x => x.InstalledSystemId!);
        Refer<RecallNotice, FanRecall>(builder, x => x.FanRecallId);
        Refer<RecallNotice, SystemComponent>(builder, x => x.SystemComponentId);
        Refer<RecallNotice, House>(builder, x => x.HouseId);
        Refer<RecallNotice, OutboxMessage>(builder, x => x.OutboxMessageId!);
        Refer<RecallNotice, StoredDocument>(builder, x => x.LetterDocumentId!);
        Refer<RadonTest, House>(builder, x => x.HouseId);
        Refer<RadonTest, InstalledSystem>(builder, x => x.InstalledSystemId!);
        Refer<RadonTest, StoredDocument>(builder, x => x.LetterDocumentId!);
        Refer<TestDevice, Instrument>(builder, x => x.InstrumentId!);
        builder.Entity<TestDevice>().HasOne(d => d.Monitor).WithOne().HasForeignKey<MonitorRecord>(m => m.TestDeviceId).OnDelete(DeleteBehavior.Cascade);
        builder.Entity<TestDevice>().Navigation(d => d.Monitor).AutoInclude();
        Refer<MonitorRecord, StoredDocument>(builder, x => x.StoredDocumentId);
        Refer<TestKit, House>(builder, x => x.HouseId);
        Refer<TestKit, Instrument>(builder, x => x.BatchId!);
        builder.Entity<TestKit>().HasOne<TestDevice>().WithMany().HasForeignKey(x => x.TestDeviceId).OnDelete(DeleteBehavior.SetNull);
        Refer<ExposureDay, StaffMember>(builder, x => x.StaffMemberId);
        Refer<ExposureDay, House>(builder, x => x.HouseId!);
        Refer<Reminder, House>(builder, x => x.HouseId);
        Refer<Reminder, House>(builder, x => x.HouseId!);
        Refer<Reminder, LetterRun>(builder, x => x.LetterRunId!);
        Refer<Reminder, StoredDocument>(builder, x => x.LetterDocumentId!);
        // Empty for nearly all of a hundred thousand planned reminders: their places in these indexes would only cost time.
        foreach (var rare in new[] { nameof(Reminder.LetterRunId), nameof(Reminder.LetterDocumentId), nameof(Reminder.OutboxMessageId) })
            builder.Entity<Reminder>().HasIndex(rare).HasFilter($"\"{rare}\" IS NOT NULL");
        Refer<LetterRun, StoredDocument>(builder, x => x.PdfDocumentId);
        Refer<LetterRun, StoredDocument>(builder, x => x.LabelsDocumentId!);
        Refer<ReturnedMail, OutboxMessage>(builder, x => x.OutboxMessageId!);
        Refer<OwnerLink, House>(builder, x => x.HouseId);
        Refer<OwnerLink, Customer>(builder, x => x.CustomerId);
        Refer<OwnerWord, House>(builder, x => x.HouseId);
        Refer<OwnerWord, Customer>(builder, x => x.CustomerId);
        Refer<HouseChange, House>(builder, x => x.HouseId);
        Refer<Reminder, InstalledSystem>(builder, x => x.InstalledSystemId!);
        Refer<Reminder, OutboxMessage>(builder, x => x.OutboxMessageId!);
        Refer<OutboxMessage, House>(builder, x => x.HouseId!);
        Refer<ReportEntry, InstalledSystem>(builder, x => x.InstalledSystemId);
        Refer<ReportEntry, ReportRun>(builder, x => x.ReportRunId);
        Refer<ReportExclusion, InstalledSystem>(builder, x => x.InstalledSystemId);
        Refer<ReportSending, ReportRun>(builder, x => x.ReportRunId);
        Refer<ReportRun, StoredDocument>(builder, x => x.CsvDocumentId!);
        Refer<ReportRun, StoredDocument>(builder, x => x.XlsxDocumentId!);
        Refer<ReportRun, StoredDocument>(builder, x => x.PdfDocumentId!);
        Refer<Invoice, House>(builder, x => x.HouseId);
        Refer<Invoice, Customer>(builder, x => x.CustomerId);
        Refer<Invoice, Acceptance>(builder, x => x.AcceptanceId!);
        Refer<Invoice, Invoice>(builder, x => x.CreditsInvoiceId!);
        Refer<Invoice, StoredDocument>(builder, x => x.PdfDocumentId);
        Refer<InvoiceLine, InvoiceLine>(builder, x => x.CreditsLineId!);
        Refer<Payment, House>(builder, x => x.HouseId);
        Refer<Payment, Customer>(builder, x => x.CustomerId);
        Refer<Payment, Payment>(builder, x => x.UndoesPaymentId!);
        Refer<CancelledSale, House>(builder, x => x.HouseId);
        Refer<CancelledSale, Customer>(builder, x => x.CustomerId);
        Refer<CancelledSale, Acceptance>(builder, x => x.AcceptanceId);
        Refer<ChangeOrder, House>(builder, x => x.HouseId);
        Refer<ChangeOrder, Job>(builder, x => x.JobId);
        Refer<ChangeOrder, Acceptance>(builder, x => x.AcceptanceId);
        Refer<ChangeOrder, StoredDocument>(builder, x => x.PdfDocumentId!);
        Refer<ChangeLink, ChangeOrder>(builder, x => x.ChangeOrderId);
        Refer<ChangeSignature, ChangeOrder>(builder, x => x.ChangeOrderId);
        Refer<ChangeSignature, StoredDocument>(builder, x => x.PdfDocumentId);
        Refer<ChangeSignature, StoredDocument>(builder, x => x.SignedDocumentId);
        Refer<CancelNotice, House>(builder, x => x.HouseId);
        Refer<CancelNotice, Acceptance>(builder, x => x.AcceptanceId);
        Refer<CancelNotice, StoredDocument>(builder, x => x.PdfDocumentId);
        Refer<StoredDocument, House>(builder, x => x.HouseId!);
        foreach (var type in builder.Model.GetEntityTypes().ToList())
            foreach (var amount in type.ClrType.GetProperties().Where(p => p.PropertyType == typeof(Money) && p.CanWrite))
                builder.Entity(type.ClrType).ComplexProperty(typeof(Money), amount.Name).Property(nameof(Money.Cents));
    }

    /// <summary>A reference that keeps what it points to from being deleted.</summary>
    private static void Refer<TFrom, TTo>(
        ModelBuilder builder, Expression<Func<TFrom, object?>> key)
        where TFrom : class
        where TTo : class =>
        builder.Entity<TFrom>().HasOne<TTo>().WithMany().HasForeignKey(key).OnDelete(DeleteBehavior.Restrict);
}
