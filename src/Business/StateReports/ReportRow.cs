using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;

namespace MitigationOffice.Business.StateReports;

/// <summary>One system as the report tells it.</summary>
public sealed record ReportRow(int SystemId, int HouseId, string Tag, DateTime ActivatedAtUtc, IReadOnlyDictionary<string, string> Values);

/// <summary>Reads systems and what belongs to them, in a fixed number of statements however many there are.</summary>
internal sealed class ReportRows(OfficeDb db, CompanyProfile company, DateOnly month)
{
    private readonly TimeZoneInfo _zone = HouseTime.Zone(company.TimeZone);

    public async Task<List<ReportRow>> ReadAsync(IQueryable<InstalledSystem> systems, CancellationToken cancel)
    {
        var read = await systems.AsNoTracking().OrderBy(s => s.ActivatedAtUtc).ThenBy(s => s.Id).ToListAsync(cancel);
        var houses = (await db.Houses.AsNoTracking().Where(h => systems.Any(s => s.HouseId == h.Id))
            .Include(h => h.Areas).Include(h => h.EarlierTests).Include(h => h.Owners).ThenInclude(o => o.Customer).AsSplitQuery().ToListAsync(cancel)).ToDictionary(h => h.Id);
        var jobs = await db.Jobs.AsNoTracking().Where(j => systems.Any(s => s.JobId == j.Id)).Select(j => new { j.Id, j.Number, j.Day, j.DoneOn }).ToDictionaryAsync(j => j.Id, cancel);
        var tests = (await db.RadonTests.AsNoTracking().Include(t => t.Devices).Where(t => t.EndedAtUtc != null && systems.Any(s => s.HouseId == t.HouseId)).ToListAsync(cancel)).ToLookup(t => t.HouseId);
        var person = string.Join("; ", await db.Licences.AsNoTracking().Where(l => l.Holder != company.Name && l.Number != company.CertificationNumber)
            .OrderBy(l => l.Holder).Select(l => l.Number).ToListAsync(cancel));
        return [.. read.Select(s =>
        {
            var job = s.JobId is { } id ? jobs.GetValueOrDefault(id) : null;
            return new ReportRow(s.Id, s.HouseId, s.TagNumber, s.ActivatedAtUtc, Values(s, houses[s.HouseId], job?.Number ?? "", job?.Day ?? job?.DoneOn, tests[s.HouseId], person));
        })];
    }

    private Dictionary<string, string> Values(InstalledSystem s, House h, string jobNumber, DateOnly? began, IEnumerable<RadonTest> tests, string person)
    {
        var on = HouseTime.DayOf(s.ActivatedAtUtc, _zone);
        var values = ReportMonth.CompanyValues(company, month);
        values["person_certification"] = person;
        values["job_number"] = jobNumber;
        Put(values, h, on);
        Put(values, s, on, began);
        PutBefore(values, h, on);
        PutAfter(values, s, tests);
        values["late_from_month"] = on < month ? ReportMonth.Words(on) : "";
        return values;
    }

    private static void Put(Dictionary<string, string> values, House h, DateOnly on)
    {
        var owner = (h.Owners.Find(o => o.FromDay <= on && (o.ToDay is null || o.ToDay > on)) ?? h.Owners.OrderBy(o => o.FromDay).FirstOrDefault())?.Customer;
        values["customer"] = owner?.Name ?? "";
        values["customer_phone"] = owner?.Phone ?? "";
        values["street"] = h.Street2.Length == 0 ? h.Street : $"{h.Street}, {h.Street2}";
        values["city"] = h.City;
        values["county"] = h.County;
        values["state"] = h.State;
        values["zip"] = h.Zip;
        values["building_type"] = Plain(h.Building);
        values["foundation_type"] = string.Join("; ", h.Areas.Select(a => Plain(a.Kind)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
    }

    private static void Put(Dictionary<string, string> values, InstalledSystem s, DateOnly on, DateOnly? began)
    {
        values["start_date"] = Day(began);
        values["fan_activation_date"] = Day(on);
        values["completion_date"] = Day(s.CompletedOn);
        values["system_type"] = s.SystemType;
        values["suction_points"] = s.SuctionPoints > 0 ? s.SuctionPoints.ToString(CultureInfo.InvariantCulture) : "";
        values["fan_location"] = s.FanPlace;
        values["pipe_size"] = s.PipeSize;
        values["start_up_suction_inwc"] = s.StartUpGaugePa is { } pa
            ? Math.Round(Measures.GaugePressure.In(pa, "inWC"), 2, MidpointRounding.AwayFromZero).ToString("0.00", CultureInfo.InvariantCulture) : "";
        values["tag"] = s.TagNumber;
        values["cost"] = s.Price.Cents > 0 ? s.Price.Dollars.ToString("0.00", CultureInfo.InvariantCulture) : "";
        values["backdraft_check"] = s.Backdraft == BackdraftCheck.NotDone ? "" : Plain(s.Backdraft);
        values["notes"] = s.DifferencesFromDesign;
    }

    private static void PutBefore(Dictionary<string, string> values, House h, DateOnly on)
    {
        var before = h.EarlierTests.Where(t => (t.EndedOn ?? t.StartedOn) is not { } day || day <= on).OrderByDescending(t => t.EndedOn ?? t.StartedOn).ThenByDescending(t => t.Id).FirstOrDefault();
        if (before is null) return;
        values["pre_test_pcil"] = Level(before.PCiL);
        values["pre_test_method"] = before.Device;
        values["pre_test_start"] = Day(before.StartedOn);
        values["pre_test_end"] = Day(before.EndedOn);
        values["pre_test_tester"] = before.MadeBy;
    }

    private void PutAfter(Dictionary<string, string> values, InstalledSystem s, IEnumerable<RadonTest> tests)
    {
        var after = tests.Where(t => t.EndedAtUtc > s.ActivatedAtUtc && t.Reason is TestReason.PostMitigation && t.Outcome is not (TestOutcome.NotJudged or TestOutcome.NotValid))
            .OrderBy(t => t.EndedAtUtc).FirstOrDefault();
        if (after is null) return;
        values["post_test_pcil"] = after.DecidingPCiL is { } level ? Level(level) : "";
        values["post_test_method"] = string.Join("; ", after.Devices.Select(d => Plain(d.Kind)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        values["post_test_start"] = Day(HouseTime.DayOf(after.StartedAtUtc, _zone));
        values["post_test_end"] = Day(HouseTime.DayOf(after.EndedAtUtc!.Value, _zone));
        values["post_test_tester"] = after.MadeByNumber.Length > 0 ? after.MadeByNumber : after.MadeBy;
        values["post_test_window"] = after.StartedAtUtc < s.ActivatedAtUtc.AddHours(24) ? "under 24 h" : after.StartedAtUtc > s.ActivatedAtUtc.AddDays(30) ? "over 30 d" : "";
    }

    private static string Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    /// <summary>One digit after the point, as radon levels are reported.</summary>
    private static string Level(decimal pCiL) => Math.Round(pCiL, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Plain(Enum value) =>
        string.Concat(value.ToString().Select((c, i) => i > 0 && char.IsUpper(c) ? " " + char.ToLowerInvariant(c) : c.ToString()));
}
