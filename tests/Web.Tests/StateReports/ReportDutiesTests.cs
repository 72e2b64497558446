using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Business.Systems;
using MitigationOffice.Web.Jobs;
using MitigationOffice.Web.Setup.Lists;
using MitigationOffice.Web.Tests.FollowUp;
using MitigationOffice.Web.Tests.Messages;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>What is due and when it is said, how long records are kept, and who may see addresses.</summary>
public sealed class ReportDutiesTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private Task TakeUpAsync(string code, DateOnly starts, string? state = null) => office.WithDbAsync(async db =>
    {
        db.ReportDuties.Add(new ReportDuty { ProfileCode = code, StartsOn = starts, State = state ?? ProfileBook.Shipped[code].State });
        await db.SaveChangesAsync();
    });

    private async Task RemindAsync()
    {
        await using (var scope = office.Services.CreateAsyncScope()) await ActivatorUtilities.CreateInstance<PlanRemindersJob>(scope.ServiceProvider).RunAsync(CancellationToken.None);
        await office.RunFollowUpAsync();
    }

    [Fact]
    public async Task Today_says_what_is_to_freeze_to_send_and_late()
    {
        await office.TagAsync(Utc(2026, 2, 10));
        var desk = await office.SignInAsOfficeAsync();
        Assert.Contains("Choose the rule you report under", await desk.TextAsync("/"), StringComparison.Ordinal);
        await TakeUpAsync(ProfileBook.General, new DateOnly(2026, 2, 1));
        var today = await desk.TextAsync("/");
        Assert.Contains("General, monthly: freeze the report of February 2026", today, StringComparison.Ordinal);
        Assert.Contains("due Tue, Mar 10 (in 8 days)", today, StringComparison.Ordinal);
        await office.FreezeAsync("2026-02");
        office.ClockTo(new DateOnly(2026, 3, 12), 9);
        today = await (await office.SignInAsOfficeAsync()).TextAsync("/");
        Assert.Contains("send the report of February 2026", today, StringComparison.Ordinal);
        Assert.Contains("was due 2 days ago (Mar 10)", today, StringComparison.Ordinal);
        await (await office.SignInAsOfficeAsync()).SubmitAsync("/state-reports/general-month/2026-02", new() { ["Input.SentOn"] = "3/12/2026" });
        Assert.DoesNotContain("report of February", await (await office.SignInAsOfficeAsync()).TextAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_forty_five_days_run_from_each_systems_own_day()
    {
        await TakeUpAsync("pennsylvania", new DateOnly(2026, 1, 1));
        await office.TagAsync(Utc(2026, 2, 10), state: "PA");
        await office.TagAsync(Utc(2026, 1, 20), state: "MN");
        var due = Assert.Single(await office.WithDbAsync(db => DueReports.ReadAsync(db, new DateOnly(2026, 3, 20))));
        // 25 Pa. Code 240.303: 45 days after 2026-02-10; counted by hand.
        Assert.Equal((new DateOnly(2026, 3, 27), DueKind.Freeze, "2026-03-19"), (due.DueOn, due.Kind, due.Period.Name));
        Assert.Empty(await office.WithDbAsync(db => DueReports.ReadAsync(db, new DateOnly(2026, 3, 1))));
    }

    [Fact]
    public async Task The_office_is_written_to_a_week_before_the_day_before_and_once_when_it_is_late()
    {
        await TakeUpAsync(ProfileBook.General, new DateOnly(2026, 2, 1));
        foreach (var day in new[] { 2, 3, 3, 5, 9, 9, 11, 12, 15 })
        {
            office.ClockTo(new DateOnly(2026, 3, day), 9);
            await RemindAsync();
        }

        const string What = "General, monthly: freeze the report of February 2026";
        Assert.Equal(
            [$"{What}: due on Mar 10, 2026.", $"{What}: due on Mar 10, 2026.", $"{What}: late, it was due on Mar 10, 2026."],
            office.MailTo("office@lanternridge.example").Select(m => m.Subject));
    }

    [Fact]
    public async Task A_fee_is_reminded_of_until_it_is_noted_as_paid_and_a_report_until_it_is_sent()
    {
        await office.AddProfileAsync("""{"code":"fee-state","name":"Fee","state":"MN","deadline":{"rule":"days-after-period","days":10},"fee":{"cents":7500,"deadline":{"rule":"days-after-period","days":30}},"fields":["tag"]}""");
        await TakeUpAsync("fee-state", new DateOnly(2026, 2, 1), "MN");
        await office.TagAsync(Utc(2026, 2, 10));
        await office.FreezeAsync("2026-02", "fee-state");
        office.ClockTo(new DateOnly(2026, 3, 4), 9);
        await RemindAsync();
        Assert.Contains("send the report of February 2026: due on Mar 10, 2026.", Assert.Single(office.MailTo("office@lanternridge.example")).Subject, StringComparison.Ordinal);
        office.ClockTo(new DateOnly(2026, 3, 23), 9);
        await (await office.SignInAsOfficeAsync()).SubmitAsync("/state-reports/fee-state/2026-02", new() { ["Input.SentOn"] = "3/9/2026" });
        await RemindAsync();
        Assert.Contains("pay the fee of $75.00 for February 2026: due on Mar 30, 2026.", office.MailTo("office@lanternridge.example")[^1].Subject, StringComparison.Ordinal);
        await (await office.SignInAsOfficeAsync()).SubmitAsync("/state-reports/fee-state/2026-02", new() { ["Input.FeePaidOn"] = "3/23/2026" });
        var before = office.MailTo("office@lanternridge.example").Count;
        office.ClockTo(new DateOnly(2026, 4, 2), 9);
        await RemindAsync();
        Assert.Equal(before, office.MailTo("office@lanternridge.example").Count);
    }

    [Fact]
    public async Task Records_whose_time_is_over_are_listed_and_stay()
    {
        office.ClockTo(new DateOnly(2031, 6, 1), 9);
        var (minnesota, iowa, illinois) = (await office.TagAsync(Utc(2026, 2, 10)), await office.TagAsync(Utc(2026, 2, 11), state: "IA"), await office.TagAsync(Utc(2026, 2, 12), state: "IL"));
        var (island, nowhere) = (await office.TagAsync(Utc(2020, 2, 12), state: "RI"), await office.TagAsync(Utc(2020, 2, 12), state: "ME"));
        await office.WithDbAsync(async db =>
        {
            db.Add(new SystemComponent { InstalledSystemId = await db.Systems.Where(s => s.TagNumber == illinois).Select(s => s.Id).SingleAsync(), Kind = ComponentKind.Fan, Model = "Larch", FittedOn = new DateOnly(2026, 2, 12), WarrantyUntil = new DateOnly(2033, 2, 12) });
            await db.SaveChangesAsync();
        });
        await office.AddTestAsync(await office.WithDbAsync(db => db.Systems.Where(s => s.TagNumber == iowa).Select(s => s.HouseId).SingleAsync()), Utc(2027, 5, 1));
        var kept = (await office.WithDbAsync(db => KeptRecords.ReadAsync(db, ""))).ToDictionary(k => k.Tag, k => k.Until);
        // Minn. R. 4620.7400 three years; Iowa 641-44.6 five, from the later test; 32 Ill. Adm. Code 422.70(f) five or the longer warranty; Rhode Island until allowed; Maine not known.
        Assert.Equal(
            (new DateOnly(2029, 2, 10), new DateOnly(2032, 5, 1), new DateOnly(2033, 2, 12), (DateOnly?)null, (DateOnly?)null),
            (kept[minnesota], kept[iowa], kept[illinois], kept[island], kept[nowhere]));
        var text = await (await office.SignInAsOfficeAsync()).TextAsync("/state-reports/records");
        var (over, rest) = (text[..text.IndexOf("To be kept", StringComparison.Ordinal)], text[text.IndexOf("To be kept", StringComparison.Ordinal)..]);
        Assert.Contains(minnesota, over, StringComparison.Ordinal);
        foreach (var tag in new[] { iowa, illinois, island, nowhere }) Assert.Contains(tag, rest, StringComparison.Ordinal);
        Assert.Equal(5, await office.WithDbAsync(db => db.Systems.CountAsync()));
    }

    [Theory]
    [InlineData("/houses?handler=File")]
    [InlineData("/customers?handler=File")]
    public async Task A_list_that_leaves_as_a_file_names_no_private_house(string url)
    {
        await office.TagAsync(Utc(2026, 2, 10), "3 Open Road");
        var desk = await office.SignInAsOfficeAsync();
        var open = await desk.GetStringAsync(url);
        Assert.Contains("Wren Alder", open, StringComparison.Ordinal);
        await office.TagAsync(Utc(2026, 2, 11), "4 Hidden Road", state: "NJ");
        await office.WithDbAsync(async db =>
        {
            var owner = await db.HouseOwners.Where(o => o.House!.State == "NJ").Select(o => o.Customer!).SingleAsync();
            (owner.Name, owner.Phone, owner.Email) = ("Lark Hazel", "555-0188", "lark@hazel.example");
            await db.SaveChangesAsync();
        });
        var hidden = await desk.GetStringAsync(url);
        foreach (var told in new[] { "Hidden Road", "Lark Hazel", "555-0188", "lark@hazel" }) Assert.DoesNotContain(told, hidden, StringComparison.Ordinal);
        Assert.Contains(PrivateHouses.Instead, hidden, StringComparison.Ordinal);
        Assert.Contains("Wren Alder", hidden, StringComparison.Ordinal);
        Assert.Equal(hidden, await desk.GetStringAsync(url + "&private=show"));
        Assert.Contains("Lark Hazel", await (await office.SignInAsOwnerAsync()).GetStringAsync(url + "&private=show"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_states_own_report_keeps_its_addresses_and_one_for_the_owner_is_refused_to_others()
    {
        await office.AddProfileAsync("""{"code":"nj-own","name":"Own","state":"NJ","privacy":{"addressesPrivate":true,"ownerOnly":true},"fields":["tag","street"]}""");
        var tag = await office.TagAsync(Utc(2026, 2, 11), "4 Hidden Road", state: "NJ");
        var (desk, owner) = (await office.SignInAsOfficeAsync(), await office.SignInAsOwnerAsync());
        Assert.DoesNotContain("Hidden Road", await desk.GetStringAsync("/state-reports/nj-own/2026-02"), StringComparison.Ordinal);
        await office.FreezeAsync("2026-02", "nj-own");
        Assert.StartsWith("/not-allowed", (await desk.GetAsync("/state-reports/nj-own/2026-02?handler=File&kind=Csv")).Headers.Location!.PathAndQuery, StringComparison.Ordinal);
        Assert.Equal($"tag,street\r\n{tag},4 Hidden Road\r\n", await owner.GetStringAsync("/state-reports/nj-own/2026-02?handler=File&kind=Csv"));
    }

    [Fact]
    public async Task A_report_without_a_state_says_what_the_states_of_its_houses_keep_private()
    {
        const string url = "/state-reports/general-month/2026-02";
        await office.TagAsync(Utc(2026, 2, 10));
        var desk = await office.SignInAsOfficeAsync();
        Assert.DoesNotContain("Houses in NJ:", await desk.TextAsync(url), StringComparison.Ordinal);
        await office.TagAsync(Utc(2026, 2, 11), "4 Hidden Road", state: "NJ");
        Assert.Contains("Houses in NJ:", await desk.TextAsync(url), StringComparison.Ordinal);
        var run = await office.FreezeAsync("2026-02");
        Assert.Contains("Houses in NJ:", await desk.TextAsync(url), StringComparison.Ordinal);
        using var paper = UglyToad.PdfPig.PdfDocument.Open(await office.BytesAsync(run.PdfDocumentId));
        Assert.Contains("Houses in NJ:", string.Join(' ', paper.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_export_of_everything_leaves_private_houses_out_when_asked()
    {
        await office.TagAsync(Utc(2026, 2, 11), "4 Hidden Road", state: "NJ");
        var houses = await office.WithDbAsync(db => PrivateHouses.ReadAsync(db));
        Assert.Equal((PrivateHouses.Instead, "Birchford", "NJ"), (houses!.Hide("at 4 hidden road, upstairs"), houses.Hide("Birchford"), houses.Hide("NJ")));
        var file = System.Text.Encoding.UTF8.GetBytes("Street,City\r\n\"4 Hidden Road, rear\",Birchford\r\n");
        Assert.Equal("Street,City\r\nprivate,Birchford\r\n", System.Text.Encoding.UTF8.GetString(HidePrivate.Hidden(file, houses)));
    }

    [Fact]
    public async Task Ten_thousand_systems_take_no_more_statements_than_ten()
    {
        for (var i = 1; i <= 3; i++) await office.TagAsync(Utc(2026, 2, i));
        var desk = await office.SignInAsOfficeAsync();
        async Task<int> CountAsync() => (await office.CountSqlAsync(() => desk.GetAsync("/state-reports/general-month/2026-02"))).Statements.Count;
        await CountAsync();
        var few = await CountAsync();
        for (var i = 4; i <= 40; i++) await office.TagAsync(Utc(2026, 2, i % 27 + 1));
        Assert.Equal(few, await CountAsync());
        Assert.True(few <= 10);
        // Freezing: the rows go in by one statement for each hundred.
        var frozen = await office.CountSqlAsync(() => desk.SubmitAsync("/state-reports/general-month/2026-02", new() { ["WithGaps"] = "true" }, "form[action*=Freeze]"));
        Assert.Equal(HttpStatusCode.Redirect, frozen.Answer.StatusCode);
        Assert.True(frozen.Statements.Count < 45, $"{frozen.Statements.Count} statements.");
    }
}
