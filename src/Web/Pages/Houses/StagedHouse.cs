using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Pages.Houses;

/// <summary>A house in a list, with how far it has come.</summary>
public sealed class StagedHouse
{
    private const int ToDiagnose = (int)HouseStage.ToDiagnose, ToDesign = (int)HouseStage.ToDesign, ToPrice = (int)HouseStage.ToPrice;
    private const int InDraft = (int)HouseStage.QuoteInDraft, Out = (int)HouseStage.QuoteOut, RanOut = (int)HouseStage.QuoteRanOut, Declined = (int)HouseStage.QuoteDeclined;
    private const int ToPlan = (int)HouseStage.ToPlan, Planned = (int)HouseStage.Planned, AsBuiltMissing = (int)HouseStage.AsBuiltMissing, CalledOff = (int)HouseStage.CalledOff;
    private const int NotTested = (int)HouseStage.NotTested, DevicesOut = (int)HouseStage.DevicesOut, ToJudge = (int)HouseStage.ResultToJudge;
    private const int NotPassed = (int)HouseStage.NotPassed, Proven = (int)HouseStage.Proven;

    public int Id { get; init; }
    public string Street { get; init; } = "";
    public string Street2 { get; init; } = "";
    public string City { get; init; } = "";
    public string County { get; init; } = "";
    public string State { get; init; } = "";
    public string Zip { get; init; } = "";
    public string Search { get; init; } = "";
    public DateTime AskedAtUtc { get; init; }
    public string? Owner { get; init; }
    public string? Phone { get; init; }
    public decimal? FirstPCiL { get; init; }
    public string? Tag { get; init; }
    public int StageNumber { get; init; }
    public HouseStage Stage => (HouseStage)StageNumber;

    public string Address => $"{Street}{(Street2.Length == 0 ? "" : ", " + Street2)}, {City}, {State} {Zip}";

    public static IQueryable<StagedHouse> In(OfficeDb db, DateOnly today) =>
        from h in db.Houses.AsNoTracking()
        let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).ThenByDescending(o => o.Id).Select(o => o.Customer).FirstOrDefault()
        let tested = db.RadonTests.Where(t => t.HouseId == h.Id && t.Outcome != TestOutcome.NotValid && (t.InstalledSystemId != null || t.Reason == TestReason.PostMitigation))
            .OrderByDescending(t => t.StartedAtUtc)
            .Select(t => (int?)(t.EndedAtUtc == null ? DevicesOut : t.Outcome == TestOutcome.NotJudged ? ToJudge : t.Outcome == TestOutcome.NotPassed ? NotPassed : Proven)).FirstOrDefault()
        let worked = db.Jobs.Where(j => j.HouseId == h.Id).OrderByDescending(j => j.Id)
            .Select(j => (int?)(j.State == JobState.ToPlan ? ToPlan : j.State == JobState.Planned ? Planned : j.State == JobState.Done ? AsBuiltMissing : CalledOff)).FirstOrDefault()
        let offered = db.QuoteRevisions.Where(r => r.Quote!.HouseId == h.Id).OrderByDescending(r => r.Id)
            .Select(r => (int?)(r.State == RevisionState.Draft ? InDraft
                : r.State == RevisionState.Sent ? (r.ValidUntil != null && r.ValidUntil < today ? RanOut : Out)
                : r.State == RevisionState.Accepted ? ToPlan : Declined)).FirstOrDefault()
        select new StagedHouse
        {
            Id = h.Id, Street = h.Street, Street2 = h.Street2, City = h.City, County = h.County, State = h.State, Zip = h.Zip, Search = h.Search, AskedAtUtc = h.AskedAtUtc,
            Owner = owner!.Name,
            Phone = owner.Phone,
            FirstPCiL = h.EarlierTests.Max(t => (decimal?)t.PCiL),
            Tag = db.Systems.Where(s => s.HouseId == h.Id).OrderByDescending(s => s.Id).Select(s => s.TagNumber).FirstOrDefault(),
            StageNumber = db.Systems.Any(s => s.HouseId == h.Id) ? (tested ?? NotTested)
                : worked ?? offered ?? (db.Designs.Any(d => d.HouseId == h.Id) ? ToPrice : db.PressureFieldTests.Any(t => t.HouseId == h.Id) ? ToDesign : ToDiagnose),
        };
}
