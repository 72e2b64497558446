using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using static MitigationOffice.Business.StateReports.ReadSystemParts;

namespace MitigationOffice.Business.StateReports;

/// <summary>Reads every system and what a report tells of it, in six statements however many there are.</summary>
public sealed class GatherSystems(OfficeDb db, ReportHead head)
{
    private readonly Dictionary<string, TimeZoneInfo> _zones = new(StringComparer.Ordinal);
    private readonly SharedText _shared = new();

    public async Task<List<SystemToReport>> ReadAsync(CancellationToken cancel = default)
    {
        var code = head.Profile.Code;
        var parts = await ReadSystemParts.RunAsync(db, cancel);
        var rows = (from s in db.Systems.AsNoTracking()
                    join h in db.Houses on s.HouseId equals h.Id
                    orderby s.ActivatedAtUtc, s.Id
                    select new SystemRow
                    {
                        Id = s.Id, HouseId = s.HouseId, Tag = s.TagNumber, ActivatedAtUtc = s.ActivatedAtUtc, CompletedOn = s.CompletedOn, Type = s.SystemType, Points = s.SuctionPoints,
                        Pipe = s.PipeSize, FanPlace = s.FanPlace, GaugePa = s.StartUpGaugePa, Backdraft = s.Backdraft, Cents = s.Price.Cents, Notes = s.DifferencesFromDesign,
                        Street = h.Street, Street2 = h.Street2, City = h.City, County = h.County, State = h.State, Zip = h.Zip, Zone = h.TimeZone, Building = h.Building,
                        JobId = s.JobId, JobNumber = db.Jobs.Where(j => j.Id == s.JobId).Select(j => j.Number).FirstOrDefault(), JobDay = db.Jobs.Where(j => j.Id == s.JobId).Select(j => j.Day ?? j.DoneOn).FirstOrDefault(),
                        LeftOut = db.ReportExclusions.Where(e => e.ProfileCode == code && e.InstalledSystemId == s.Id && e.OpenKey != null).Select(e => e.Reason).FirstOrDefault(),
                    }).AsAsyncEnumerable();
        var systems = new List<SystemToReport>();
        // One after the other: of ten thousand rows only the values stay.
        await foreach (var row in rows.WithCancellation(cancel)) systems.Add(Of(row, parts));
        return systems;
    }

    private SystemToReport Of(SystemRow s, ReadSystemParts parts)
    {
        var zone = _zones.TryGetValue(s.Zone, out var known) ? known : _zones[s.Zone] = HouseTime.Zone(s.Zone, head.Company.TimeZone);
        var on = HouseTime.DayOf(s.ActivatedAtUtc, zone);
        var after = parts.TestAfter(s.HouseId, s.Id, s.ActivatedAtUtc);
        var fans = parts.Fans[s.Id].ToList();
        var values = new ReportValues();
        RowValues.PutHouse(values, s, [.. parts.Areas[s.HouseId].Select(a => a.Kind)]);
        var owner = parts.OwnerOn(s.HouseId, on);
        RowValues.PutOwner(values, owner);
        RowValues.PutSystem(values, s, on, fans.Find(f => f.RemovedOn is null) ?? fans.LastOrDefault());
        RowValues.PutBefore(values, parts.TestBefore(s.HouseId, on));
        if (after is not null) RowValues.PutAfter(values, after, s.ActivatedAtUtc, zone);
        values.Share(_shared);
        return new(s.Id, s.HouseId, _shared.Of(s.Tag), _shared.Of(s.State), s.LeftOut ?? "", s.ActivatedAtUtc, [.. Occurrences(s, on, fans, after, zone)], values) { JobId = s.JobId, CustomerId = owner?.CustomerId, TestId = after?.Id };
    }

    private IEnumerable<Occurrence> Occurrences(SystemRow s, DateOnly on, List<FanRow> fans, TestRow? after, TimeZoneInfo zone)
    {
        foreach (var counted in head.Profile.Events)
        {
            if (counted == CountedEvent.Activation) yield return new("activation", on);
            if (counted == CountedEvent.Completion) yield return new("completion", s.CompletedOn);
            if (counted == CountedEvent.Test && after is not null) yield return new("test", HouseTime.DayOf(after.EndedAtUtc, zone));
            if (counted == CountedEvent.Alteration)
                foreach (var fan in fans.Where(f => f.FittedOn > on && f.FittedOn > s.CompletedOn)) yield return new($"alteration-{fan.Id}", fan.FittedOn);
        }
    }
}
