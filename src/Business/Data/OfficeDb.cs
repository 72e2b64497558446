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
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Staff;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Business.Data;

/// <summary>The office's records on SQLite or PostgreSQL: one model, two sets of migrations.</summary>
public sealed partial class OfficeDb(DbContextOptions<OfficeDb> options, TimeProvider clock, Actor actor)
    : IdentityUserContext<StaffMember, int>(options)
{
    public DbSet<CompanyProfile> Company => Set<CompanyProfile>();
    public DbSet<Licence> Licences => Set<Licence>();
    public DbSet<PriceItem> PriceItems => Set<PriceItem>();
    public DbSet<Fan> Fans => Set<Fan>();
    public DbSet<Customer> Customers => Set<Customer>();
    public DbSet<House> Houses => Set<House>();
    public DbSet<HouseClimate> Climates => Set<HouseClimate>();
    public DbSet<HouseOwner> HouseOwners => Set<HouseOwner>();
    public DbSet<PressureFieldTest> PressureFieldTests => Set<PressureFieldTest>();
    public DbSet<SuctionDesign> Designs => Set<SuctionDesign>();
    public DbSet<Quote> Quotes => Set<Quote>();
    public DbSet<QuoteRevision> QuoteRevisions => Set<QuoteRevision>();
    public DbSet<QuoteLink> QuoteLinks => Set<QuoteLink>();
    public DbSet<Acceptance> Acceptances => Set<Acceptance>();
    public DbSet<Job> Jobs => Set<Job>();
    public DbSet<InstalledSystem> Systems => Set<InstalledSystem>();
    public DbSet<OwnCorrection> OwnCorrections => Set<OwnCorrection>();
    public DbSet<RadonTest> RadonTests => Set<RadonTest>();
    public DbSet<ReminderRule> ReminderRules => Set<ReminderRule>();
    public DbSet<Reminder> Reminders => Set<Reminder>();
    public DbSet<OutboxMessage> Outbox => Set<OutboxMessage>();
    public DbSet<OutboxGate> OutboxGates => Set<OutboxGate>();
    public DbSet<Suppression> Suppressions => Set<Suppression>();
    public DbSet<UnsubscribeLink> UnsubscribeLinks => Set<UnsubscribeLink>();
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
        Refer<HouseClimate, House>(builder, x => x.HouseId);
        Refer<PressureFieldTest, House>(builder, x => x.HouseId);
        Refer<SuctionDesign, House>(builder, x => x.HouseId);
        Refer<SuctionDesign, PressureFieldTest>(builder, x => x.PressureFieldTestId!);
        Refer<SuctionDesign, Fan>(builder, x => x.FanId!);
        Refer<FanSetting, Fan>(builder, x => x.FanId!);
        builder.Entity<HoleReading>().HasOne<FanSetting>().WithMany().HasForeignKey(x => x.FanSettingId).OnDelete(DeleteBehavior.Cascade);
        Refer<Quote, House>(builder, x => x.HouseId);
        Refer<Quote, Customer>(builder, x => x.CustomerId);
        Refer<QuoteRevision, SuctionDesign>(builder, x => x.SuctionDesignId!);
        Refer<QuoteRevision, StoredDocument>(builder, x => x.PdfDocumentId!);
        Refer<QuoteLink, QuoteRevision>(builder, x => x.QuoteRevisionId);
        Refer<Acceptance, QuoteRevision>(builder, x => x.QuoteRevisionId);
        Refer<Acceptance, StoredDocument>(builder, x => x.PdfDocumentId);
        Refer<Acceptance, StoredDocument>(builder, x => x.SignedDocumentId);
        Refer<Job, House>(builder, x => x.HouseId);
        Refer<Job, Acceptance>(builder, x => x.AcceptanceId);
        Refer<InstalledSystem, House>(builder, x => x.HouseId);
        Refer<InstalledSystem, Job>(builder, x => x.JobId!);
        Refer<InstalledSystem, SuctionDesign>(builder, x => x.SuctionDesignId!);
        Refer<InstalledSystem, StoredDocument>(builder, x => x.LabelDocumentId!);
        Refer<InstalledSystem, StoredDocument>(builder, x => x.PacketDocumentId!);
        Refer<RadonTest, House>(builder, x => x.HouseId);
        Refer<RadonTest, InstalledSystem>(builder, x => x.InstalledSystemId!);
        Refer<RadonTest, StoredDocument>(builder, x => x.LetterDocumentId!);
        Refer<Reminder, House>(builder, x => x.HouseId);
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
