using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Houses;

namespace MitigationOffice.Web.Tests.Today;

public sealed class TodayTests(OfficeApp office) : IClassFixture<OfficeApp>, IAsyncLifetime
{
    private static readonly DateTime Now = OfficeApp.Start.UtcDateTime;
    private static bool _filled;

    public async Task InitializeAsync()
    {
        if (_filled) return;
        _filled = true;
        await office.AddHouseAsync("1 Asked Road", askedAtUtc: Now.AddDays(-20));
        await office.AddQuoteAsync(await office.AddHouseAsync("2 Offered Road"), RevisionState.Sent, new DateOnly(2026, 3, 5));
        await office.AddQuoteAsync(await office.AddHouseAsync("3 Lapsed Road"), RevisionState.Sent, new DateOnly(2026, 2, 20));
        await office.AddJobAsync(await office.AddHouseAsync("4 Accepted Road"), JobState.ToPlan, null);
        await office.AddJobAsync(await office.AddHouseAsync("5 Morning Road"), JobState.Planned, new DateOnly(2026, 3, 3));
        await office.AddJobAsync(await office.AddHouseAsync("6 Late Road"), JobState.Planned, new DateOnly(2026, 2, 26));
        await office.AddJobAsync(await office.AddHouseAsync("7 Far Road"), JobState.Planned, new DateOnly(2026, 3, 30));
        await office.AddSystemAsync(await office.AddHouseAsync("8 Fresh Road"), "T-8", Now.AddHours(-5));
        await office.AddSystemAsync(await office.AddHouseAsync("9 Window Road"), "T-9", Now.AddDays(-10));
        await office.AddSystemAsync(await office.AddHouseAsync("10 Overdue Road"), "T-10", Now.AddDays(-40));
        await TestedAsync("11 Devices Road", "T-11", TestOutcome.NotJudged, Now.AddDays(-12), null);
        await TestedAsync("12 Alpha Road", "T-12", TestOutcome.NotJudged, Now.AddDays(-100), null, DeviceKind.AlphaTrack);
        await TestedAsync("13 Judge Road", "T-13", TestOutcome.NotJudged, Now.AddDays(-6), Now.AddDays(-4));
        await TestedAsync("14 High Road", "T-14", TestOutcome.NotPassed, Now.AddDays(-6), Now.AddDays(-4));
        await TestedAsync("15 Proven Road", "T-15", TestOutcome.BelowTarget, Now.AddDays(-6), Now.AddDays(-4));
        await office.WithDbAsync(async db =>
        {
            var house = db.Houses.Single(h => h.Street == "15 Proven Road").Id;
            db.Add(new ReminderRule { Code = "t-look", Name = "Look at the gauge", Subject = "-", Body = "-" });
            db.Add(new Reminder { HouseId = house, RuleCode = "t-look", Key = "t-soon", DueOn = new(2026, 3, 10), SendOn = new(2026, 3, 9), Because = "fan on since September" });
            db.Add(new Reminder { HouseId = house, RuleCode = "t-look", Key = "t-later", DueOn = new(2026, 9, 10), SendOn = new(2026, 9, 9), Because = "much later" });
            db.Add(Mail("m-1", "Refused letter", DeliveryState.Refused));
            db.Add(Mail("m-2", "Sent letter", DeliveryState.Sent));
            db.Add(new Licence { Holder = "Ada Quill", Number = "L-1", IssuedBy = "State", ExpiresOn = new(2026, 4, 20) });
            db.Add(new Licence { Holder = "Cleo Marsh", Number = "L-2", IssuedBy = "State", ExpiresOn = new(2027, 4, 20) });
            await db.SaveChangesAsync();
        });
    }

    public Task DisposeAsync() => Task.CompletedTask;

    [Fact]
    public async Task Everything_due_late_or_waiting_stands_there_with_its_reason()
    {
        var text = await (await office.SignInAsOfficeAsync()).TextAsync("/");
        foreach (var words in new[]
        {
            "Monday, March 2, 2026",
            "asked 20 days ago (Feb 10), no readings yet", "holds until Thu, Mar 5 (in 3 days)", "ran out 10 days ago (Feb 20)", "accepted today, no day yet", "planned tomorrow",
            "was planned 4 days ago (Feb 26)", "; not written down as done", "a test may start from Mar 3, 2026 4:00 AM", "start the test by Sun, Mar 22 (in 20 days)",
            "ended 10 days ago (Feb 20): test at once", "longer than 7 days: fetch them", "no verdict yet", "look for the cause", "goes out Mon, Mar 9 (in 7 days): fan on since September",
            "refused: 550 no such box", "ends Mon, Apr 20 (in 49 days)", "no state report is set up",
        }) Assert.Contains(words, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_due_is_not_there()
    {
        var text = await (await office.SignInAsOfficeAsync()).TextAsync("/");
        foreach (var words in new[] { "7 Far Road", "much later", "Sent letter", "L-2", "longer than 365 days", "First steps" }) Assert.DoesNotContain(words, text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_installer_sees_work_and_readings_only()
    {
        var crew = await office.SignInAsInstallerAsync();
        var html = await (await crew.GetAsync("/")).Content.ReadAsStringAsync();
        foreach (var words in new[] { "4 Accepted Road", "9 Window Road", "1 Asked Road", "13 Judge Road" }) Assert.Contains(words, html, StringComparison.Ordinal);
        foreach (var words in new[] { "Offered Road", "Refused letter", "L-1", "State report<", "Look at the gauge", "/quote\"", "Result letters" }) Assert.DoesNotContain(words, html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_day_begins_where_the_company_is()
    {
        var desk = await office.SignInAsOfficeAsync();
        try
        {
            // Kiritimati is 14 hours ahead of UTC: 15:00 UTC on March 2 is 05:00 on March 3 there (IANA tz database).
            await SetZoneAsync("Pacific/Kiritimati");
            Assert.Contains("Tuesday, March 3, 2026", await desk.TextAsync("/"), StringComparison.Ordinal);
        }
        finally
        {
            await SetZoneAsync("America/Chicago");
        }
    }

    [Fact]
    public async Task Ten_statements_are_enough_for_all_of_it()
    {
        await office.AssertFewStatementsAsync(await office.SignInAsOwnerAsync(), "/");
        await office.AssertFewStatementsAsync(await office.SignInAsInstallerAsync(), "/");
    }

    private Task SetZoneAsync(string zone) => office.WithDbAsync(async db =>
    {
        db.Company.Single().TimeZone = zone;
        await db.SaveChangesAsync();
    });

    private async Task TestedAsync(string street, string tag, TestOutcome outcome, DateTime started, DateTime? ended, DeviceKind device = DeviceKind.Charcoal)
    {
        var house = await office.AddHouseAsync(street);
        await office.AddTestAsync(house, await office.AddSystemAsync(house, tag, Now.AddDays(-120)), outcome, started, ended, device);
    }

    private static OutboxMessage Mail(string key, string subject, DeliveryState state) => new()
    {
        Key = key,
        MessageId = key,
        ToAddress = "wren@mail.example",
        Subject = subject,
        Mime = [1],
        State = state,
        CreatedAtUtc = Now,
        NextTryUtc = Now,
        LastAnswer = "550 no such box",
    };
}

public sealed class EmptyTodayTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task An_empty_office_shows_its_first_steps_as_links()
    {
        var html = await (await (await office.SignInAsOwnerAsync()).GetAsync("/")).Content.ReadAsStringAsync();
        foreach (var href in new[] { "/shop/company", "/shop/fans", "/shop/prices", "/houses/new" }) Assert.Contains($"<a href=\"{href}\">", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<h2 id=", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_desk_and_the_crew_get_only_the_steps_they_may_take()
    {
        var desk = await (await (await office.SignInAsOfficeAsync()).GetAsync("/")).Content.ReadAsStringAsync();
        Assert.Contains("<a href=\"/houses/new\">", desk, StringComparison.Ordinal);
        Assert.DoesNotContain("<a href=\"/shop/company\">", desk, StringComparison.Ordinal);
        Assert.DoesNotContain("/houses/new", await (await (await office.SignInAsInstallerAsync()).GetAsync("/")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
