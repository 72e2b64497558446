using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>One job as sheet 5 shows it.</summary>
public sealed record JobView(
    int Id, int Version, string Number, JobState State, SystemKind Kind, DateOnly? Day, TimeOnly? ArriveAt, string Crew, DateOnly? DoneOn, string CancelWindowWaiver,
    string Notes, string CalledOffBecause, int AcceptanceId, bool Cancelled, long PaidCents, DateTime AcceptedAtUtc, string AcceptedZone, DateOnly CancelBy, Money Deposit, Money Total,
    string Revision, int? DesignId, Job Kept)
{
    public sealed record Step(int Id, int Position, string Words, string Caution, string Source, DateTime? DoneAtUtc, string DoneBy, string NotNeededBecause)
    {
        public bool Settled => DoneAtUtc is not null || NotNeededBecause.Length > 0;
    }

    public sealed record Built(
        int Id, string Tag, DateTime ActivatedAtUtc, bool LeftRunning, BackdraftCheck Backdraft, string Fan, string Serial, double? GaugePa, double? Watts, string Alarm, DateOnly? BatteryOn,
        int? LabelId, int? PacketId, List<FinalReading> Readings)
    {
        public string Wiring { get; init; } = "";
        public ReadWith? ReadWith { get; init; }
        public IReadOnlyList<DraftCheck> Drafts { get; init; } = [];
        public IReadOnlyList<BuiltLine> Judged { get; init; } = [];
        public int Links { get; init; }
        public DateTime? HandedOverAtUtc { get; init; }
        public int? HandOverDocumentId { get; init; }
    }

    public IReadOnlyList<Step> Steps { get; init; } = [];
    public IReadOnlyList<WorkDay> Days { get; init; } = [];
    public IReadOnlyList<Appointment> Appointments { get; init; } = [];

    /// <summary>What the customer paid at this house and was not given back.</summary>
    public Money Paid => new(PaidCents);
    public Built? System { get; init; }
    public DateOnly AcceptedOn => HouseTime.DayOf(AcceptedAtUtc, HouseTime.Zone(AcceptedZone));

    /// <summary>The job asked for, or the house's newest that is not called off.</summary>
    public static async Task<JobView?> LoadAsync(OfficeDb db, int houseId, int? jobId)
    {
        var jobs = db.Jobs.AsNoTracking().Where(j => j.HouseId == houseId);
        if (jobId is { } id) jobs = jobs.Where(j => j.Id == id);
        var view = await (from j in jobs
                          join a in db.Acceptances on j.AcceptanceId equals a.Id
                          join r in db.QuoteRevisions on a.QuoteRevisionId equals r.Id
                          orderby j.State == JobState.CalledOff, j.Id descending
                          select new JobView(
                              j.Id, j.Version, j.Number, j.State, j.Kind, j.Day, j.ArriveAt, j.Crew, j.DoneOn, j.CancelWindowWaiver, j.Notes, j.CalledOffBecause,
                              a.Id, db.CancelledSales.Any(c => c.AcceptanceId == a.Id), db.Payments.Where(p => p.HouseId == j.HouseId && p.CustomerId == r.Quote!.CustomerId).Sum(p => p.Amount.Cents), a.AtUtc, a.TimeZone, a.CancelBy, a.Deposit, a.Total, r.Quote!.Number + " " + r.Letter, a.SuctionDesignId, j)
                          {
                              Appointments = db.Appointments.Where(x => x.JobId == j.Id && x.CancelledAtUtc == null).OrderBy(x => x.Day).ThenBy(x => x.Id).ToList(),
                          }).AsNoTracking().AsSingleQuery().FirstOrDefaultAsync();
        return view is null ? null : view with { Steps = await StepsAsync(db, view.Id), System = await BuiltAsync(db, view.Id), Days = await DaysAsync(db, view.Id) };
    }

    /// <summary>The days that stand, in order, with who goes there.</summary>
    private static Task<List<WorkDay>> DaysAsync(OfficeDb db, int jobId) =>
        db.WorkDays.AsNoTracking().Include(d => d.Bookings.Where(b => b.GivenBack == 0)).Where(d => d.JobId == jobId && d.CancelledAtUtc == null).OrderBy(d => d.Day).ThenBy(d => d.Id).AsSingleQuery().ToListAsync();

    private static Task<List<Step>> StepsAsync(OfficeDb db, int jobId) =>
        db.Jobs.Where(j => j.Id == jobId).SelectMany(j => j.Steps).OrderBy(s => s.Position)
            .Select(s => new Step(s.Id, s.Position, s.Words, s.Caution, s.CautionSource, s.DoneAtUtc, s.DoneBy, s.NotNeededBecause)).ToListAsync();

    private static async Task<Built?> BuiltAsync(OfficeDb db, int jobId)
    {
        var s = await db.Systems.AsNoTracking().Where(x => x.JobId == jobId).Select(x => new
        {
            x.Id, x.TagNumber, x.ActivatedAtUtc, x.LeftRunning, x.Backdraft, x.StartUpGaugePa, x.StartUpWatts, x.LabelDocumentId, x.PacketDocumentId,
            Fan = x.Components.Where(c => c.Kind == ComponentKind.Fan && c.RemovedOn == null).OrderByDescending(c => c.Id).Select(c => new { c.Model, c.Serial }).FirstOrDefault(),
            Alarm = x.Components.Where(c => c.Kind == ComponentKind.Alarm && c.RemovedOn == null).OrderByDescending(c => c.Id).Select(c => new { c.Model, c.BatteryFittedOn }).FirstOrDefault(),
            Readings = x.FinalSuctions.OrderBy(f => f.Id).Select(f => new FinalReading(f.HoleLabel, f.SuctionPa, f.PredictedPa) { FanOffPa = f.FanOffPa }).ToList(),
            x.Instrument, x.InstrumentId, x.CompletedOn, Drafts = x.DraftChecks.OrderBy(c => c.Id).ToList(), x.Electrician, x.WiringSignedOn, Report = db.Designs.Where(d => d.Id == x.SuctionDesignId).Select(d => d.ReportJson).FirstOrDefault(),
            Links = db.SystemLinks.Count(l => l.InstalledSystemId == x.Id && l.RevokedAtUtc == null),
            HandOver = db.HandOvers.Where(h => h.InstalledSystemId == x.Id).OrderByDescending(h => h.Id).Select(h => new { h.AtUtc, h.DocumentId }).FirstOrDefault(),
        }).AsSingleQuery().FirstOrDefaultAsync();
        if (s is null) return null;
        var instruments = s.Instrument.Length == 0 ? [] : await ReadWith.InstrumentsAsync(db);
        return new Built(s.Id, s.TagNumber, s.ActivatedAtUtc, s.LeftRunning, s.Backdraft, s.Fan?.Model ?? "–", s.Fan?.Serial ?? "", s.StartUpGaugePa, s.StartUpWatts,
                s.Alarm?.Model ?? "", s.Alarm?.BatteryFittedOn, s.LabelDocumentId, s.PacketDocumentId, s.Readings)
        {
            ReadWith = ReadWith.Of(instruments, s.InstrumentId, s.Instrument, s.CompletedOn), Drafts = s.Drafts,
            Wiring = s.Electrician.Length == 0 ? "" : $"{s.Electrician}{(s.WiringSignedOn is { } on ? $", signed off {HouseTime.Show(on)}" : ", not signed off yet")}",
            Judged = JudgeBuilt.Of(ForeseenSuction.Of(s.Report), s.StartUpGaugePa, s.StartUpWatts, s.Readings),
            Links = s.Links, HandedOverAtUtc = s.HandOver?.AtUtc, HandOverDocumentId = s.HandOver?.DocumentId,
        };
    }
}
