using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Commands;
using MitigationOffice.Web.Tests.FollowUp;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>A report from its preview to its frozen rows.</summary>
public sealed class ReportRunTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    [Fact]
    public async Task A_system_is_in_the_month_of_the_clock_at_its_house()
    {
        // Chicago is six hours behind UTC in winter, Denver seven, New York five: 05:59 UTC on 1 March is still February in Chicago.
        var last = await office.TagAsync(new DateTime(2026, 3, 1, 5, 59, 0, DateTimeKind.Utc));
        await office.TagAsync(new DateTime(2026, 3, 1, 6, 0, 0, DateTimeKind.Utc));
        await office.TagAsync(new DateTime(2026, 2, 1, 5, 59, 0, DateTimeKind.Utc));
        var first = await office.TagAsync(new DateTime(2026, 2, 1, 6, 0, 0, DateTimeKind.Utc));
        var east = await office.TagAsync(new DateTime(2026, 2, 1, 5, 0, 0, DateTimeKind.Utc), zone: "America/New_York");
        var west = await office.TagAsync(new DateTime(2026, 3, 1, 6, 30, 0, DateTimeKind.Utc), zone: "America/Denver");
        Assert.Equal([east, first, last, west], (await office.PreviewAsync("2026-02")).Plan.Rows.Select(r => r.System.Tag));
    }

    [Fact]
    public async Task What_was_frozen_never_changes()
    {
        var tag = await office.TagAsync(Utc(2026, 2, 10));
        var run = await office.FreezeAsync("2026-02");
        var before = await Task.WhenAll(run.DocumentIds.Select(id => office.BytesAsync(id)));
        await office.ChangeAsync(tag, (_, house) => house.Street = "1 Other Road");
        await office.WithDbAsync(async db => { (await db.Company.SingleAsync()).Name = "Other"; await db.SaveChangesAsync(); });
        var desk = await office.SignInAsOfficeAsync();
        foreach (var (kind, i) in new[] { "Csv", "Xlsx", "Pdf" }.Select((k, i) => (k, i)))
            Assert.Equal(before[i], await desk.GetByteArrayAsync($"/state-reports/general-month/2026-02?handler=File&kind={kind}"));
        Assert.Contains(tag, await desk.TextAsync("/state-reports/general-month/2026-02"), StringComparison.Ordinal);
        await Assert.ThrowsAsync<InvalidOperationException>(() => office.FreezeAsync("2026-02"));
        await Assert.ThrowsAsync<InvalidOperationException>(() => office.WithDbAsync(async db => { (await db.ReportRuns.SingleAsync()).Counted = 7; await db.SaveChangesAsync(); }));
        await Assert.ThrowsAsync<InvalidOperationException>(() => office.WithDbAsync(async db => { db.Remove(await db.ReportEntries.SingleAsync()); await db.SaveChangesAsync(); }));
        Assert.Empty((await office.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
    }

    [Theory]
    [InlineData("UPDATE \"ReportEntries\" SET \"RowJson\" = replace(\"RowJson\", 'Larkspur', 'Thistle')")]
    [InlineData("UPDATE \"ReportRuns\" SET \"SignedBy\" = 'Nobody'")]
    [InlineData("DELETE FROM \"ReportEntries\" WHERE \"Position\" = 1")]
    public async Task What_is_changed_behind_the_program_is_found(string sql)
    {
        await office.TagAsync(Utc(2026, 2, 10));
        await office.FreezeAsync("2026-02");
        await office.WithDbAsync(db => db.Database.ExecuteSqlRawAsync(sql));
        Assert.NotEmpty((await office.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task One_registered_late_is_in_the_next_report_and_a_correction_amends_by_reference()
    {
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        var first = await office.TagAsync(Utc(2026, 1, 10));
        await office.FreezeAsync("2026-01");
        var late = await office.TagAsync(Utc(2026, 1, 20));
        var inTime = await office.TagAsync(Utc(2026, 2, 20));
        await office.ChangeAsync(first, (_, house) => house.Street = "15 Larkspur Hill Road");
        var rows = await office.RowsAsync(await office.FreezeAsync("2026-02"));
        Assert.Equal([(late, "late", "2026-01", ""), (inTime, "new", "", ""), (first, "correction", "", "2026-01 row 1")], rows.Select(r => (r["tag"], r["row_kind"], r["late_from_period"], r["amends"])));
        Assert.Equal(("street", "15 Larkspur Hill Road"), (rows[2]["changed"], rows[2]["street"]));
        Assert.Equal("yes", Assert.Single(await office.RowsAsync(await office.FreezeAsync("2026-03")))["no_work"]);
    }

    [Fact]
    public async Task A_day_moved_into_a_frozen_month_is_a_correction_and_never_a_second_count()
    {
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        await office.FreezeAsync("2026-01");
        var tag = await office.TagAsync(Utc(2026, 2, 3));
        await office.FreezeAsync("2026-02");
        await office.ChangeAsync(tag, (system, _) => (system.ActivatedAtUtc, system.CompletedOn) = (Utc(2026, 1, 30), new DateOnly(2026, 1, 30)));
        var row = Assert.Single(await office.RowsAsync(await office.FreezeAsync("2026-03")));
        Assert.Equal(("correction", "2026-02 row 1", "2026-01-30", "fan_activation_date, completion_date"), (row["row_kind"], row["amends"], row["fan_activation_date"], row["changed"]));
        Assert.Equal(1, await office.WithDbAsync(db => db.ReportEntries.CountAsync(e => e.CountsKey != null)));
    }

    [Fact]
    public async Task A_company_licensed_in_two_states_reports_each_house_to_its_own_and_a_system_moved_between_them_is_withdrawn_and_told_late()
    {
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        foreach (var state in new[] { "MN", "WI" })
            await office.AddProfileAsync($$"""{"code":"st-{{state.ToLowerInvariant()}}","name":"State {{state}}","state":"{{state}}","period":"month","files":["csv"],"fields":["report_period","row_kind","company_certification","tag","street","state","amends","changed"]}""");
        await office.WithDbAsync(async db =>
        {
            db.ReportDuties.Add(new ReportDuty { ProfileCode = "st-mn", StartsOn = new DateOnly(2026, 1, 1), State = "MN" });
            db.ReportDuties.Add(new ReportDuty { ProfileCode = "st-wi", StartsOn = new DateOnly(2026, 1, 1), State = "WI", CompanyNumber = "WI-9" });
            await db.SaveChangesAsync();
        });
        var (minnesota, wisconsin) = (await office.TagAsync(Utc(2026, 1, 5)), await office.TagAsync(Utc(2026, 1, 6), state: "WI"));
        Assert.Equal([("TEST-001", minnesota)], (await office.RowsAsync(await office.FreezeAsync("2026-01", "st-mn"))).Select(r => (r["company_certification"], r["tag"])));
        Assert.Equal([("WI-9", wisconsin)], (await office.RowsAsync(await office.FreezeAsync("2026-01", "st-wi"))).Select(r => (r["company_certification"], r["tag"])));
        await office.WithDbAsync(async db =>
        {
            (await db.Systems.SingleAsync(s => s.TagNumber == minnesota)).HouseId = await db.Systems.Where(s => s.TagNumber == wisconsin).Select(s => s.HouseId).SingleAsync();
            await db.SaveChangesAsync();
        });
        Assert.Equal([("withdrawal", minnesota, "the house stands in WI, not in MN")], (await office.RowsAsync(await office.FreezeAsync("2026-02", "st-mn"))).Select(r => (r["row_kind"], r["tag"], r["changed"])));
        Assert.Equal([("late", minnesota, "WI")], (await office.RowsAsync(await office.FreezeAsync("2026-02", "st-wi"))).Select(r => (r["row_kind"], r["tag"], r["state"])));
        Assert.Empty((await office.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
    }

    [Fact]
    public async Task Two_who_freeze_at_once_make_one_run()
    {
        await office.TagAsync(Utc(2026, 2, 10));
        var tries = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(async () =>
        {
            try
            {
                await office.FreezeAsync("2026-02");
                return 1;
            }
            catch (InvalidOperationException)
            {
                return 0;
            }
        })));
        Assert.Equal((1, 1), (tries.Sum(), await office.WithDbAsync(db => db.ReportRuns.CountAsync())));
    }

    [Fact]
    public async Task Reports_are_frozen_in_order_and_only_when_their_time_is_over()
    {
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        await office.FreezeAsync("2026-01");
        Assert.Contains("February 2026 comes first", (await Assert.ThrowsAsync<InvalidOperationException>(() => office.FreezeAsync("2026-03"))).Message, StringComparison.Ordinal);
        Assert.Contains("not over", (await Assert.ThrowsAsync<InvalidOperationException>(() => office.FreezeAsync("2026-04"))).Message, StringComparison.Ordinal);
        Assert.Contains("not after the last", (await Assert.ThrowsAsync<InvalidOperationException>(() => office.FreezeAsync("2025-12"))).Message, StringComparison.Ordinal);
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("href=\"/state-reports/general-month/2026-02\"", await (await desk.GetAsync("/state-reports/general-month/2026-03")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_or_doubtful_value_is_named_with_a_link_to_where_it_is_entered()
    {
        var (house, system) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10));
        await office.WithDbAsync(async db =>
        {
            var s = await db.Systems.SingleAsync(x => x.Id == system);
            (s.FanPlace, s.CompletedOn) = ("", new DateOnly(2026, 2, 9));
            await db.SaveChangesAsync();
        });
        var desk = await office.SignInAsOfficeAsync();
        var html = await (await desk.GetAsync("/state-reports/general-month/2026-02")).Content.ReadAsStringAsync();
        Assert.Contains($"<a href=\"/houses/{house}/work#as-built\">the place of the fan is missing</a>", html, StringComparison.Ordinal);
        Assert.Contains($"<a href=\"/houses/{house}/inquiry#Input_EarlierTestsInWords\">the radon level before is missing</a>", html, StringComparison.Ordinal);
        Assert.Contains("before the fan was switched on", html, StringComparison.Ordinal);
        var refused = await desk.SubmitAsync("/state-reports/general-month/2026-02", new() { ["SignedBy"] = "Ada Quill" }, "form[action*=Freeze]");
        var text = await refused.Content.ReadAsStringAsync();
        Assert.Contains("values are missing or doubtful", text, StringComparison.Ordinal);
        Assert.Contains("value=\"Ada Quill\"", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/state-reports/general-month/2026-02", new() { ["WithGaps"] = "true" }, "form[action*=Freeze]")).StatusCode);
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+Mill Road")]
    [InlineData("-Mill Road")]
    [InlineData("@Mill Road")]
    public async Task Text_that_a_spreadsheet_takes_for_a_formula_is_refused_with_its_place_and_not_altered(string street)
    {
        await office.TagAsync(Utc(2026, 2, 10), street);
        Assert.False((await office.PreviewAsync("2026-02")).MayFreeze);
        Assert.Contains("formula", (await Assert.ThrowsAsync<InvalidOperationException>(() => office.FreezeAsync("2026-02"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_left_out_has_its_reason_in_the_proof_and_one_left_out_after_its_report_is_withdrawn()
    {
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        var (kept, never) = (await office.TagAsync(Utc(2026, 1, 5)), await office.TagAsync(Utc(2026, 1, 6)));
        var desk = await office.SignInAsOfficeAsync();
        await office.WithDbAsync(async db => { db.ReportDuties.Add(new ReportDuty { ProfileCode = ProfileBook.General, StartsOn = new DateOnly(2026, 1, 1) }); await db.SaveChangesAsync(); });
        var id = await office.WithDbAsync(db => db.Systems.ToDictionaryAsync(s => s.TagNumber, s => s.Id));
        var form = $"form[action*=LeaveOut]:has(input[name=SystemId][value='{id[never]}'])";
        Assert.Contains("Write why", await (await desk.SubmitAsync("/state-reports/general-month/proof", [], form)).TextAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/state-reports/general-month/proof", new() { ["Reason"] = "a demonstration at a fair" }, form)).StatusCode);
        Assert.Equal([kept], (await office.RowsAsync(await office.FreezeAsync("2026-01"))).Select(r => r["tag"]));
        await desk.SubmitAsync("/state-reports/general-month/proof", new() { ["Reason"] = "entered twice" }, $"form[action*=LeaveOut]:has(input[name=SystemId][value='{id[kept]}'])");
        Assert.Equal([("withdrawal", kept, "entered twice")], (await office.RowsAsync(await office.FreezeAsync("2026-02"))).Select(r => (r["row_kind"], r["tag"], r["changed"])));
        var text = await desk.TextAsync("/state-reports/general-month/proof");
        Assert.Contains("It adds up.", text, StringComparison.Ordinal);
        Assert.Contains("left out: a demonstration at a fair", text, StringComparison.Ordinal);
        Assert.Contains("reported in 2026-01 row 1, withdrawn in 2026-02 row 1: entered twice", text, StringComparison.Ordinal);
        await desk.SubmitAsync("/state-reports/general-month/proof", [], "form[action*=TakeBack]");
        Assert.Equal(1, await office.WithDbAsync(db => db.ReportExclusions.CountAsync(e => e.TakenBackBy == "Bram Oster")));
    }

    [Fact]
    public async Task Systems_from_before_the_start_are_left_out_with_that_reason()
    {
        await office.TagAsync(Utc(2020, 5, 5));
        await office.TagAsync(Utc(2026, 2, 5));
        var plan = (await office.PreviewAsync("2026-02")).Plan;
        Assert.Equal(1, plan.Counted);
        Assert.Equal(PlanReport.BeforeStart, Assert.Single(plan.Places, p => p.Kind == PlaceKind.LeftOut).Words);
    }

    [Fact]
    public async Task A_second_fan_is_counted_where_the_rule_counts_alterations()
    {
        office.ClockTo(new DateOnly(2026, 7, 2), 9);
        var tag = await office.TagAsync(Utc(2026, 2, 10), state: "PA");
        var preview = await office.PreviewAsync("2026-03-01", "pennsylvania");
        Assert.Equal(0, preview.Plan.Counted);
        Assert.Equal(1, (await office.PreviewAsync("2026-02-28", "pennsylvania")).Plan.Counted);
        // 25 Pa. Code 240.303: 45 days after initial fan activation.
        Assert.Equal(new DateOnly(2026, 3, 27), (await office.PreviewAsync("2026-02-28", "pennsylvania")).DueOn);
        await office.FreezeAsync("2026-02-28", "pennsylvania");
        await office.WithDbAsync(async db =>
        {
            var system = await db.Systems.SingleAsync(s => s.TagNumber == tag);
            db.Add(new Business.Systems.SystemComponent { InstalledSystemId = system.Id, Kind = Business.Systems.ComponentKind.Fan, Model = "Larch 42", FittedOn = new DateOnly(2026, 5, 4) });
            await db.SaveChangesAsync();
        });
        var run = await office.FreezeAsync("2026-06-30", "pennsylvania");
        Assert.Equal([("alteration", "new")], (await office.RowsAsync(run)).Select(r => (r["counted_as"], r["row_kind"])));
        Assert.Equal((new DateOnly(2026, 3, 1), new DateOnly(2026, 6, 18)), (run.First, run.DueOn));
    }

    [Fact]
    public async Task The_command_writes_the_stored_bytes()
    {
        await office.TagAsync(Utc(2026, 2, 10));
        var folder = Path.Combine(office.Folder, "out");
        var asked = new ReportCommand.Asked(ProfileBook.General, "2026-02", folder, "Ada Quill", true);
        var paths = await office.WithDbAsync(db => ReportCommand.WriteAsync(db, asked, office.Now(), CancellationToken.None));
        var first = await Task.WhenAll(paths.Select(p => File.ReadAllBytesAsync(p)));
        Assert.Equal(paths, await office.WithDbAsync(db => ReportCommand.WriteAsync(db, asked with { WithGaps = false }, office.Now(), CancellationToken.None)));
        Assert.Equal(["state-report-general-month-2026-02.csv", "state-report-general-month-2026-02.xlsx", "state-report-general-month-2026-02.pdf"], paths.Select(Path.GetFileName));
        Assert.Equal(first, await Task.WhenAll(paths.Select(p => File.ReadAllBytesAsync(p))));
    }

    [Fact]
    public async Task It_is_noted_as_sent_and_a_bad_day_keeps_its_typing()
    {
        await office.FreezeAsync("2026-02");
        var desk = await office.SignInAsOfficeAsync();
        var refused = await desk.SubmitAsync("/state-reports/general-month/2026-02", new() { ["Input.SentOn"] = "soon" });
        Assert.Contains("value=\"soon\"", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("cannot have been sent before", await (await desk.SubmitAsync("/state-reports/general-month/2026-02", new() { ["Input.SentOn"] = "1/2/2026" })).TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync("/state-reports/general-month/2026-02", new() { ["Input.SentOn"] = "3/2/2026", ["Input.How"] = "portal", ["Input.Confirmation"] = "C-77" });
        Assert.Contains("sent Mar 2, 2026", await desk.TextAsync("/state-reports"), StringComparison.Ordinal);
        Assert.Equal("C-77", await office.WithDbAsync(db => db.ReportSendings.Select(s => s.Confirmation).SingleAsync()));
    }

    [Fact]
    public async Task The_pages_take_few_statements()
    {
        for (var i = 1; i < 5; i++) await office.TagAsync(Utc(2026, 2, i));
        await office.FreezeAsync("2026-02");
        var owner = await office.SignInAsOwnerAsync();
        foreach (var page in new[] { "", "/general-month/2026-02", "/general-month/2026-03", "/general-month/proof", "/profiles", "/profiles/general-month", "/profiles/general-month/change", "/profiles/new", "/records" })
            await office.AssertFewStatementsAsync(owner, "/state-reports" + page);
    }
}
