using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using MitigationOffice.Web.Tests;
using MitigationOffice.Web.Tests.FollowUp;
using MitigationOffice.Web.Tests.Messages;
using UglyToad.PdfPig;

namespace MitigationOffice.Browser.Tests;

/// <summary>One house, all the way, with data made up here: from the first call to the reminder two years later and the state's file.</summary>
public sealed partial class HousePathTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    private const string Fans = """
        model,maker,connection,price,life_years,flow_cfm,static_pressure_inwc,watts
        Larch 15,Larch,4in,280,9,0,0.8,13
        Larch 15,Larch,4in,280,9,25,0.75,14.2
        Larch 15,Larch,4in,280,9,60,0.555,15.2
        Larch 15,Larch,4in,280,9,80,0.32,16
        Larch 15,Larch,4in,280,9,100,0.02,16
        Larch 42,Larch,4in,300,9,0,1.25,38
        Larch 42,Larch,4in,300,9,50,1.14,41.5
        Larch 42,Larch,4in,300,9,97,0.9,42
        Larch 42,Larch,4in,300,9,125,0.65,42
        Larch 42,Larch,4in,300,9,165,0.05,41
        """;

    private const string Prices = """
        code,name,kind,use,unit,cost,rule,markup_percent,fixed_price,labour_minutes,taxable,reason
        PIPE4,Pipe of 4 in with hangers,material,part,ft,3,markup,60,0,4,yes,
        PIT,Suction pit cored and dug,labour,part,each,40,markup,40,0,120,no,
        FANFIT,Fan fitted with couplings,material,part,each,200,markup,50,0,45,yes,
        ELEC,Circuit by a licensed electrician,subcontract,part,each,180,markup,15,0,0,no,
        TEST,Test after the work,subcontract,part,each,38,fixed,0,65,15,no,
        CABLE,Freeze-guard heat cable,material,addon,each,128,markup,55,0,75,yes,Keeps the outdoor pipe open in hard cold.
        BYPASS,Condensate bypass,material,addon,each,34,markup,60,0,40,yes,Leads water around the fan.
        LID,Sealed sump lid,material,addon,each,96,markup,55,0,60,yes,An open sump lets soil gas in.
        """;

    [BrowserFact]
    public async Task A_house_goes_from_the_first_call_to_the_state_report()
    {
        var desk = await office.OwnerAtAsync();
        await FillTheShopAsync(desk);
        var house = await TakeTheCallAsync(desk);
        await ReadTheHolesAsync(desk, house);
        await DrawTheRouteAsync(desk, house);
        await SendTheQuoteAsync(desk, house);
        await SignOnAPhoneAsync();
        await DoTheWorkAsync(desk, house);
        await ProveItAsync(desk, house);
        await WaitTwoYearsAsync();
        await ReportTheMonthAsync(house);
        Assert.Empty(desk.Complaints);
    }

    private static async Task FillTheShopAsync(BrowserWindow desk)
    {
        foreach (var (kind, lines) in new[] { ("fans", Fans), ("prices", Prices) })
        {
            await desk.GoAsync($"/shop/import?kind={kind}");
            await desk.FillAsync(("text", lines));
            await desk.PressAsync("Try it, change nothing");
            await desk.SeesAsync("every line right");
            await desk.PressAsync("Read it in");
            await desk.SeesAsync("Read:");
        }

        await desk.GoAsync("/shop/company");
        await desk.FillAsync(("Input.ElectricityCentsPerKWh", "11"), ("Input.DesignWinter", "0"), ("Input.StateProgram", "State radon program"), ("Input.StateProgramPhone", "555-0110"));
        await desk.PressAsync("Save");
    }

    private static async Task<int> TakeTheCallAsync(BrowserWindow desk)
    {
        await desk.GoAsync("/houses/new");
        await desk.FillAsync(
            ("Owner.New.Name", "Isolde Varga"), ("Owner.New.Phone", "555-0177"), ("Owner.New.Email", "isolde@varga.example"),
            ("Input.Street", "27 Rookery Lane"), ("Input.City", "Birchford"), ("Input.State", "MN"), ("Input.Zip", "55999"), ("Input.County", "Birch"),
            ("Input.EarlierTests[0].Level", "9.6"), ("Input.EarlierTests[0].Room", "basement"), ("Input.EarlierTests[0].StartedOn", "2/16/2026"), ("Input.EarlierTests[0].EndedOn", "2/19/2026"),
            ("Input.YearBuilt", "1985"), ("Input.Storeys", "2"), ("Input.Areas[0].Kind", "Basement"), ("Input.Areas[0].Floor", "900"));
        await desk.PressAsync("Save the inquiry");
        var id = int.Parse(HouseNumber().Match(desk.Path).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);
        await desk.GoAsync($"/houses/{id}/inquiry");
        return id;
    }

    private static async Task ReadTheHolesAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/diagnosis/readings");
        var fans = desk.Page.Locator("[name=\"Input.Settings[0].FanId\"] option");
        var values = await fans.EvaluateAllAsync<string[]>("all => all.map(o => o.value + '|' + o.textContent)");
        string Fan(string model) => values.Single(v => v.Contains(model, StringComparison.Ordinal)).Split('|')[0];
        await desk.FillAsync(
            ("Input.Day", "3/2/2026"), ("Input.Outdoor", "10"), ("Input.Indoor", "70"), ("Input.Suction[0].Label", "A"),
            ("Input.Settings[0].FanId", Fan("Larch 42")), ("Input.Settings[0].PitVacuum", "0.9 inWC"), ("Input.Settings[0].Watts", "42"),
            ("Input.Settings[1].FanId", Fan("Larch 15")), ("Input.Settings[1].PitVacuum", "0.555"), ("Input.Settings[1].Watts", "15.2"),
            ("Input.Holes[0].Label", "beside"), ("Input.Holes[0].Distance", "2"), ("Input.Holes[0].FanOff", "0"), ("Input.Holes[0].On[0]", "-213"), ("Input.Holes[0].On[1]", "-131"),
            ("Input.Holes[1].Label", "middle"), ("Input.Holes[1].Distance", "16"), ("Input.Holes[1].FanOff", "0"), ("Input.Holes[1].On[0]", "-14"), ("Input.Holes[1].On[1]", "-8.6"),
            ("Input.Holes[2].Label", "far"), ("Input.Holes[2].Distance", "31"), ("Input.Holes[2].FanOff", "0"), ("Input.Holes[2].On[0]", "-6.0"), ("Input.Holes[2].On[1]", "-3.7"));
        await desk.PressAsync("Save the readings");
    }

    private static async Task DrawTheRouteAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/design/route");
        (string Kind, string Length, string Rise, string Place, string Count)[] pieces =
        [
            ("Pipe", "8", "7", "Indoors", "1"), ("Elbow90", "", "", "Indoors", "3"), ("Pipe", "20", "", "Indoors", "1"), ("Elbow90", "", "", "Outdoors", "2"),
            ("Fan", "", "", "Outdoors", "1"), ("Pipe", "16", "16", "Outdoors", "1"),
        ];
        for (var i = 0; i < pieces.Length; i++)
            await desk.FillAsync(
                ($"Input.Pieces[{i}].Kind", pieces[i].Kind), ($"Input.Pieces[{i}].Length", pieces[i].Length), ($"Input.Pieces[{i}].Rise", pieces[i].Rise),
                ($"Input.Pieces[{i}].Place", pieces[i].Place), ($"Input.Pieces[{i}].Count", pieces[i].Count));
        await desk.FillAsync(("Input.DischargeHeight", "17"), ("Input.OpeningDistance", "12"), ("Input.AboveRoof", "1.5"));
        await desk.PressAsync("Save and compute");
        await desk.SeesAsync("Take Larch 15.");
        await desk.SeesAsync("pulls more than is needed");
    }

    private async Task SendTheQuoteAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/quote");
        await desk.PressAsync("Draft a quote from the latest design");
        await desk.PressAsync("Send the quote");
        await office.SendOutboxAsync();
        Assert.Single(office.Mail.To("isolde@varga.example"));
    }

    private async Task SignOnAPhoneAsync()
    {
        var mail = office.Mail.To("isolde@varga.example").Single();
        var link = OfferLink().Match(mail.TextBody ?? "").Value;
        Assert.NotEqual("", link);
        var phone = await office.OpenAsync(390, 800);
        await phone.GoAsync(new Uri(link).AbsolutePath);
        await phone.Page.Locator("[name=tier]").First.CheckAsync();
        await phone.PressAsync("Next");
        var cable = phone.Page.GetByLabel("Freeze-guard heat cable");
        if (await cable.CountAsync() > 0) await cable.First.CheckAsync();
        await phone.PressAsync("Next");
        await phone.PressAsync("Next: sign");
        await phone.FillAsync(("Input.Consented", "true"), ("Input.TypedName", "Isolde Varga"), ("Input.Intended", "true"));
        await phone.PressAsync("Accept and sign");
        await office.SendOutboxAsync();
        var signed = office.Mail.To("isolde@varga.example")[^1];
        var attached = signed.Attachments.OfType<MimeKit.MimePart>().Single();
        using var bytes = new MemoryStream();
        await attached.Content!.DecodeToAsync(bytes);
        using var pdf = PdfDocument.Open(bytes.ToArray());
        Assert.Contains(pdf.GetPages(), p => p.Text.Contains("Isolde", StringComparison.Ordinal));
        var kept = await office.WithDbAsync(db => db.Acceptances.Join(db.Documents, a => a.SignedDocumentId, d => d.Id, (a, d) => d.Bytes).SingleAsync());
        Assert.Equal(kept, bytes.ToArray());
        Assert.Empty(phone.Complaints);
    }

    private async Task DoTheWorkAsync(BrowserWindow desk, int house)
    {
        await desk.GoAsync($"/houses/{house}/work");
        await desk.PressAsync("Open the job");
        await desk.FillAsync(("Input.Days[0].Day", "3/10/2026"), ("Input.Days[0].ArriveAt", "8 am"), ("Input.Crew", "Cleo Marsh"));
        await desk.PressAsync("Plan the job");
        office.ClockTo(new DateOnly(2026, 3, 10), 16);
        await BrowserOffice.SignInAsync(desk);
        await desk.GoAsync($"/houses/{house}/work");
        foreach (var step in await desk.Page.Locator(".big-tick input").AllAsync()) await step.CheckAsync();
        await desk.PressAsync("Save the checklist");
        await desk.LeaveByAsync(desk.Page.Locator("main").GetByRole(AriaRole.Link, new() { NameRegex = AsBuiltLink() }).First);
        var fan = await desk.Page.Locator("[name=\"Input.FanId\"] option").EvaluateAllAsync<string[]>("all => all.filter(o => o.textContent.includes('Larch 15')).map(o => o.value)");
        await desk.FillAsync(
            ("Input.TagNumber", "MN-4471"), ("Input.FanOn.Day", "3/10/2026"), ("Input.FanOn.Time", "2:30 pm"), ("Input.FanId", fan[0]), ("Input.FanSerial", "L15-0001"),
            ("Input.Alarm", "Chime 9"), ("Input.AlarmBatteryOn", "3/10/2026"), ("Input.StartUpGauge", "0.46"), ("Input.StartUpWatts", "15.4"));
        for (var i = 0; i < 3; i++) await desk.FillAsync(($"Input.Readings[{i}].Shown", $"{new[] { -108, -7.1, -3.0 }[i]}"));
        await desk.PressAsync("Record what was built");
        await desk.GoAsync($"/houses/{house}/work");
        await desk.PressAsync("Make label and packet");
        await desk.PressAsync("The job is done");
        Assert.Equal(2, await office.WithDbAsync(db => db.Documents.CountAsync(d => d.HouseId == house && (d.Kind == Business.Documents.PaperKind.Label || d.Kind == Business.Documents.PaperKind.Packet))));
    }

    private async Task ProveItAsync(BrowserWindow desk, int house)
    {
        office.ClockTo(new DateOnly(2026, 3, 16), 12);
        await BrowserOffice.SignInAsync(desk);
        await desk.GoAsync($"/houses/{house}/proof/test");
        await desk.FillAsync(
            ("Input.Closed.Day", "3/12/2026"), ("Input.Closed.Time", "6 pm"), ("Input.Started.Day", "3/13/2026"), ("Input.Started.Time", "8 am"),
            ("Input.Ended.Day", "3/15/2026"), ("Input.Ended.Time", "9 am"), ("Input.MadeBy", "Birchford Test House"), ("Input.MadeByNumber", "TL-118"));
        string[] rooms = ["Basement", "Den", "Bedroom"];
        for (var i = 0; i < rooms.Length; i++)
        {
            if (await desk.Page.Locator($"[name=\"Input.Devices[{i}].Room\"]").CountAsync() == 0) break;
            await desk.FillAsync(($"Input.Devices[{i}].Kind", "Charcoal"), ($"Input.Devices[{i}].Room", rooms[i]), ($"Input.Devices[{i}].Serial", $"C{i}"), ($"Input.Devices[{i}].Result", $"0.{8 - i}"));
        }

        await desk.PressAsync("Save and draw the verdict");
        await desk.GoAsync($"/houses/{house}/proof");
        await desk.SeesAsync("0.8");
        await desk.LeaveByAsync(desk.Page.GetByRole(AriaRole.Button, new() { NameRegex = LetterButton() }));
        await office.SendOutboxAsync();
        Assert.Contains(office.Mail.To("isolde@varga.example"), m => m.Attachments.Any(a => a.ContentDisposition?.FileName?.StartsWith("radon-result", StringComparison.Ordinal) == true));
    }

    private async Task WaitTwoYearsAsync()
    {
        await office.RunFollowUpAsync();
        var before = office.Mail.To("isolde@varga.example").Count;
        for (var day = new DateOnly(2026, 3, 17); day <= new DateOnly(2028, 3, 20); day = day.AddDays(1))
        {
            if (day.Day is not (1 or 8 or 15 or 22)) continue;
            office.ClockTo(day, 11);
            await office.RunFollowUpAsync();
        }

        var reminders = office.Mail.To("isolde@varga.example").Skip(before).ToList();
        var retest = Assert.Single(reminders, m => Says(m, "retest") || (m.Subject ?? "").Contains("test", StringComparison.OrdinalIgnoreCase));
        Assert.Equal(2028, retest.Date.Year);
        Assert.Contains(reminders, m => Says(m, "battery"));
        Assert.Equal(reminders.Count, reminders.Select(m => m.MessageId).Distinct().Count());
    }

    private static bool Says(MimeKit.MimeMessage message, string word) => (message.TextBody ?? "").Contains(word, StringComparison.OrdinalIgnoreCase);

    private async Task ReportTheMonthAsync(int house)
    {
        var desk = await office.OwnerAtAsync();
        await desk.GoAsync("/state-reports/general-month/2026-03");
        var gaps = desk.Page.Locator("[name=withGaps], [name=WithGaps]");
        if (await gaps.CountAsync() > 0) await gaps.First.CheckAsync();
        await desk.PressAsync("Freeze this report");
        var csv = await office.WithDbAsync(db => db.ReportRuns.Join(db.Documents, r => r.CsvDocumentId, d => (int?)d.Id, (r, d) => d.Bytes).SingleAsync());
        var lines = System.Text.Encoding.UTF8.GetString(csv).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Single(lines, l => l.Contains("27 Rookery Lane", StringComparison.Ordinal));
        Assert.Single(lines, l => l.Contains("MN-4471", StringComparison.Ordinal));
        Assert.Equal(2, lines.Length);
        await desk.GoAsync($"/houses/{house}/follow-up");
        Assert.Empty(desk.Complaints);
    }

    [GeneratedRegex(@"/houses/(\d+)")]
    private static partial Regex HouseNumber();

    [GeneratedRegex(@"http\S+/offer/[A-Za-z0-9_-]{43}")]
    private static partial Regex OfferLink();

    [GeneratedRegex("(?i)record what was built|as-built|what was built")]
    private static partial Regex AsBuiltLink();

    [GeneratedRegex("^Send the letter")]
    private static partial Regex LetterButton();
}
