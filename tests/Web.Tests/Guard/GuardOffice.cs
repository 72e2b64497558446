using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Messages.Returned;
using MitigationOffice.Business.Quality;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Systems;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Design;
using MitigationOffice.Web.Tests.FollowUp;
using MitigationOffice.Web.Tests.Invoices;
using MitigationOffice.Web.Tests.Messages;
using MitigationOffice.Web.Tests.Papers;
using MitigationOffice.Web.Tests.Plan;
using MitigationOffice.Web.Tests.Quotes;
using MitigationOffice.Web.Tests.Shop;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>An office in full work: a design, quotes in every state, a running system, a test passed, mail sent, a month reported.</summary>
public sealed class GuardOffice : OfficeApp
{
    private readonly Dictionary<string, string[]> _values = [];

    public OfferOut Offer { get; private set; } = null!;
    public string StopPath { get; private set; } = "";
    public string MyHousePath { get; private set; } = "";
    public int RunningHouse { get; private set; }
    public int DesignHouse { get; private set; }

    public GuardOffice() => (Settings["Offer:SendsPerMinute"], Settings["Offer:ReadsPerMinute"]) = ("100000", "100000");

    public override async Task InitializeAsync()
    {
        await base.InitializeAsync();
        var (designHouse, designId) = await this.HouseWithDesignAsync();
        var (running, jobId, _) = await this.HouseWithRunningSystemAsync();
        var (proved, _, testId) = await this.HouseWithPassedTestAsync();
        Clock.SetUtcNow(new DateTimeOffset(2026, 4, 2, 15, 0, 0, TimeSpan.Zero));
        Offer = await this.HouseWithSentQuoteAsync();
        var signed = await this.AcceptedQuoteAsync();
        var draft = await this.DraftedQuoteAsync(customer: "Orla Finch");
        (DesignHouse, RunningHouse) = (designHouse, running);
        var desk = await SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync($"/houses/{proved}/proof", [], "form[action*='handler=Handed']")).StatusCode);
        await this.QueueLetterAsync(MailVerbs.ALetter("guard", "stop@wren.example", MailClass.Upkeep));
        await this.RunFollowUpAsync();
        await LettersAndOwnersAsync();
        StopPath = StopLink(this.MailTo("stop@wren.example")[^1].TextBody!);
        await WithDbAsync(async db =>
        {
            db.Instruments.Add(new Instrument { Kind = InstrumentKind.ContinuousMonitor, Serial = "M-17", SerialKey = "M17", Calibrations = [new() { DoneOn = new DateOnly(2026, 1, 10), DueOn = new DateOnly(2027, 1, 10) }] });
            db.QualityChecks.Add(new QualityCheck { Kind = CheckKind.Spike, Day = new DateOnly(2026, 3, 20), Serial = "S-1", PCiL = 14m, AgainstPCiL = 10m });
            db.TestKits.Add(new TestKit { HouseId = running, Serial = "K-1", SerialKey = "K1", OutOn = new DateOnly(2026, 3, 5), BackBy = new DateOnly(2026, 3, 15), HandedTo = "Ines Tarn" });
            db.ExposureDays.Add(new ExposureDay { StaffMemberId = await db.Users.OrderBy(u => u.Id).Select(u => u.Id).FirstAsync(), Day = new DateOnly(2026, 3, 2), Where = "Heron Court", PCiL = 12m, Hours = 6m });
            db.Licences.Add(new Licence { IssuedBy = "The state", Number = "MN-77", Holder = "Ada Quill", ExpiresOn = new DateOnly(2026, 12, 31) });
            await db.SaveChangesAsync();
        });
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/state-reports/general-month/2026-03", new() { ["WithGaps"] = "true" }, "form[action*=Freeze]")).StatusCode);
        await this.InvoicesAndMoneyAsync(signed.Id);
        Assert.Equal(HttpStatusCode.Redirect, (await BackdropTests.TakeAsync(desk, designHouse, "plan.png", Camera.Plain(40, 30, SkiaSharp.SKEncodedImageFormat.Png))).StatusCode);
        await RuleSetTests.AddAsync(await SignInAsOwnerAsync(), RuleSetTests.County("guard-county", 10));
        var change = await this.SentChangeAsync();
        await this.DraftedChangeAsync();
        _values["/offer/change/token"] = [change.Token];
        await FillAsync(draft.HouseId, designId, jobId, testId, signed.QuoteRevisionId);
    }

    /// <summary>A house owner without e-mail, a printed letter, a page of one's own and something told on it, a message that came back.</summary>
    private async Task LettersAndOwnersAsync()
    {
        var (house, _) = await this.AddHouseWithSystemAsync("", FollowUpVerbs.Utc(2026, 3, 1), street: "3 Letter Lane");
        await this.AddHouseWithSystemAsync("", FollowUpVerbs.Utc(2026, 3, 1), street: "5 Letter Lane");
        await this.RunFollowUpAsync();
        var now = Clock.GetUtcNow().UtcDateTime;
        await WithAsync<MailSettings, bool>(async mail => await WithDbAsync(async db =>
        {
            var due = await db.Reminders.Where(r => r.HouseId == house && r.State == ReminderState.Planned && r.SendOn < new DateOnly(2026, 4, 2)).Select(r => r.Id).ToListAsync();
            Assert.NotNull((await MakeLetters.RunAsync(db, new LetterOrder(due, LabelSheet.All[0], 1, "Bram Oster"), mail, now)).Run);
            var company = await db.Company.AsNoTracking().SingleAsync();
            var customer = await db.HouseOwners.Where(o => o.HouseId == RunningHouse && o.ToDay == null).Select(o => o.CustomerId).SingleAsync();
            MyHousePath = OwnerPage.AddLink(db, Letterhead.Of(company, mail), RunningHouse, customer, now).AbsolutePath;
            db.OwnerWords.Add(new OwnerWord { HouseId = RunningHouse, CustomerId = customer, Kind = OwnerWordKind.TestDone, ToldAtUtc = now, OnDay = new DateOnly(2026, 4, 1), PCiL = 1.4m, Words = "a kit in the den" });
            db.ReturnedMail.Add(new ReturnedMail { Key = "guard", ReceivedAtUtc = now, Kind = ReturnKind.NotOurs, Words = "550 5.1.1 nobody" });
            await db.SaveChangesAsync();
            return true;
        }));
    }

    private async Task FillAsync(int draftHouse, int designId, int jobId, int testId, int signedRevision) => await WithDbAsync(async db =>
    {
        var proved = await db.RadonTests.Where(t => t.Id == testId).Select(t => t.HouseId).SingleAsync();
        var signedHouse = await db.QuoteRevisions.Where(r => r.Id == signedRevision).Select(r => r.Quote!.HouseId).SingleAsync();
        var changeHouses = await db.ChangeOrders.Select(c => c.HouseId).ToListAsync();
        _values["houseId"] = [.. new[] { DesignHouse, Offer.HouseId, signedHouse, draftHouse, RunningHouse, proved }.Concat(changeHouses).Select(Text)];
        _values["changeId"] = await Ids(db.ChangeOrders.Select(c => c.Id));
        _values["designId"] = [Text(designId)];
        _values["testId"] = ["", .. await Ids(db.PressureFieldTests.Where(t => t.HouseId == DesignHouse).Select(t => t.Id))];
        _values["documentId"] = await Ids(db.Backdrops.Select(b => b.DocumentId));
        _values["key"] = ["us-pa", "guard-county"];
        _values["paperId"] = await Ids(db.Documents.Select(d => d.Id));
        _values["systemKey"] = [Link(db, (await db.Systems.OrderBy(s => s.Id).FirstAsync()).Id)];
        _values["callId"] = [Text((await OpenCall.RunAsync(db, new(RunningHouse, await db.Systems.Where(s => s.HouseId == RunningHouse).Select(s => (int?)s.Id).FirstAsync(), Sign.GaugeLower, "", "Ines", "", ""), "guard", Clock.GetUtcNow().UtcDateTime)).Id)];
        var recall = db.FanRecalls.Add(new FanRecall { Model = "Harrow 18", Reason = "A bearing", Advice = "Leave it", OpenedAtUtc = Clock.GetUtcNow().UtcDateTime }).Entity;
        var (token, hash) = PrivateLink.Make();
        db.CalendarLinks.Add(new CalendarLink { PersonId = await db.Users.Select(u => u.Id).FirstAsync(), TokenHash = hash, Everything = true, CreatedAtUtc = Clock.GetUtcNow().UtcDateTime });
        await db.SaveChangesAsync();
        (_values["feed"], _values["recallId"]) = ([token], [Text(recall.Id)]);
        _values["/customers/id"] = [.. await Ids(db.Customers.Select(c => c.Id)), "new"];
        _values["/shop/fans/id"] = [.. await Ids(db.Fans.Select(f => f.Id)), "new"];
        _values["/shop/instruments/id"] = [.. await Ids(db.Instruments.Select(i => i.Id)), "new"];
        _values["/tests/quality/id"] = [.. await Ids(db.QualityChecks.Select(c => c.Id)), "new"];
        _values["/tests/kits/id"] = [.. await Ids(db.TestKits.Select(k => k.Id)), "new"];
        _values["/exposure/id"] = ["", .. await Ids(db.Users.Select(u => u.Id))];
        _values["/shop/licences/id"] = await Ids(db.Licences.Select(l => l.Id));
        _values["/shop/prices/id"] = [.. await Ids(db.PriceItems.Select(p => p.Id)), "new"];
        _values["/follow-up/messages/id"] = await Ids(db.Outbox.Select(m => m.Id));
        _values["invoiceId"] = await Ids(db.Invoices.Select(i => i.Id));
        _values["code"] = [.. await db.ReminderRules.Select(r => r.Code).ToListAsync(), "general-month", "pennsylvania"];
        _values["profile"] = ["general-month"];
        _values["period"] = ["2026-02", "2026-03"];
        _values["token"] = [Offer.Token];
        _values["runId"] = await Ids(db.LetterRuns.Select(r => r.Id));
        _values["job"] = [Text(jobId)];
        _values["test"] = [Text(testId)];
        _values["revision"] = await Ids(db.QuoteRevisions.Select(r => r.Id));
        Assert.All(_values, v => Assert.NotEmpty(v.Value));
    });

    /// <summary>Every address of a page, its parameters filled with what is on record; the combinations that belong to no house answer 404.</summary>
    public IEnumerable<string> Addresses(PageRoute page)
    {
        foreach (var path in Filled("/" + page.Pattern))
        {
            yield return path;
            foreach (var named in page.Named("GET").Where(n => n.Length > 0)) yield return $"{path}?handler={named}&testId={_values["test"][0]}&revision={_values["revision"][0]}&part=0";
        }

        if (page.Page is "/Work/AsBuilt" or "/Work/HandOver" or "/Work/Materials" or "/Work/Photos") yield return $"/houses/{RunningHouse}/{page.Pattern.Split('/', 3)[2]}?job={_values["job"][0]}";
        if (page.Page == "/FollowUp/Unsubscribe") yield return StopPath;
        if (page.Page == "/MyHouse/Index") yield return MyHousePath;
    }

    private IEnumerable<string> Filled(string pattern)
    {
        var start = pattern.IndexOf('{', StringComparison.Ordinal);
        if (start < 0) return [pattern];
        var end = pattern.IndexOf('}', start);
        var name = pattern[(start + 1)..end].Split(':', '?')[0];
        var key = name == "id" ? pattern[..start] + "id" : pattern.StartsWith("/offer/change/", StringComparison.Ordinal) ? "/offer/change/token" : name;
        var (before, after) = (pattern[..start], pattern[(end + 1)..]);
        return _values[key].SelectMany(v => Filled(before + v + after)).Select(p => p.TrimEnd('/')).Select(p => p.Length == 0 ? "/" : p);
    }

    /// <summary>The owner looks at everything, once for all tests: from the start page by every link, then at every address of every page.
    /// The records as they stood before and after.</summary>
    public Task<(Dictionary<string, string> Before, List<Met> Met, Dictionary<string, string> After)> OwnersWalkAsync() => _ownersWalk ??= WalkAsync();

    private Task<(Dictionary<string, string>, List<Met>, Dictionary<string, string>)>? _ownersWalk;

    private async Task<(Dictionary<string, string>, List<Met>, Dictionary<string, string>)> WalkAsync()
    {
        var owner = await SignInAsOwnerAsync();
        var before = await TablesAsync();
        var met = await this.CrawlAsync(owner, ["/", .. (await this.PagesAsync()).SelectMany(Addresses)]);
        return (before, met, await TablesAsync());
    }

    /// <summary>One hash for every table of the records, taken row by row.</summary>
    public Task<Dictionary<string, string>> TablesAsync() => WithDbAsync(async db =>
    {
        var tables = new Dictionary<string, string>(StringComparer.Ordinal);
        await db.Database.OpenConnectionAsync();
        foreach (var table in db.Model.GetEntityTypes().Select(t => t.GetTableName()).OfType<string>().Distinct().Order(StringComparer.Ordinal))
        {
            await using var command = db.Database.GetDbConnection().CreateCommand();
            command.CommandText = $"SELECT * FROM \"{table}\"";
            await using var reader = await command.ExecuteReaderAsync();
            var rows = new List<string>();
            var cells = new object[reader.FieldCount];
            while (await reader.ReadAsync())
            {
                reader.GetValues(cells);
                rows.Add(string.Join('\u001f', cells.Select(c => c is byte[] bytes ? Convert.ToHexString(SHA256.HashData(bytes)) : Convert.ToString(c, CultureInfo.InvariantCulture))));
            }

            rows.Sort(StringComparer.Ordinal);
            tables[table] = $"{rows.Count} rows {Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\u001e', rows))))}";
        }

        return tables;
    });

    public Task<List<(int House, int Paper)>> QuotePapersAsync() => WithDbAsync(async db =>
        (await db.Documents.Where(d => d.HouseId != null && (d.Kind == PaperKind.Quote || d.Kind == PaperKind.SignedQuote || d.Kind == PaperKind.Invoice || d.Kind == PaperKind.CreditNote
            || d.Kind == PaperKind.ChangeOrder || d.Kind == PaperKind.SignedChangeOrder)).Select(d => new { d.HouseId, d.Id }).ToListAsync())
        .ConvertAll(d => (d.HouseId!.Value, d.Id)));

    public Task<int> DesignOfAsync(int house) => WithDbAsync(db => db.Designs.Where(d => d.HouseId == house).Select(d => d.Id).SingleAsync());

    private static string Link(OfficeDb db, int systemId) => OwnPage.Add(db, systemId, "guard", OfficeApp.Start.UtcDateTime, "guard");

    private static string StopLink(string body)
    {
        var at = body.IndexOf("/unsubscribe/", StringComparison.Ordinal);
        return body.Substring(at, "/unsubscribe/".Length + 43);
    }

    private static async Task<string[]> Ids(IQueryable<int> ids) => [.. (await ids.Order().ToListAsync()).Select(Text)];

    private static string Text(int id) => id.ToString(CultureInfo.InvariantCulture);
}
