using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Tests;
using MitigationOffice.Web.Tests.FollowUp;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Browser.Tests;

/// <summary>A state the program has never heard of, added by its text alone, and reported to.</summary>
public sealed class ReportTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    private const string Profile = """
        { "code": "my-state", "name": "My state, monthly", "jurisdiction": "My state", "state": "WY", "citation": "A rule made up for this test",
          "period": "month", "deadline": { "rule": "days-after-period", "days": 15 }, "fee": { "cents": 1200 }, "files": ["csv"],
          "fields": [ "tag", { "name": "Where", "from": "street" }, { "name": "On", "from": "fan_activation_date", "format": "MM/dd/yyyy" }, { "name": "Form", "value": "A" } ] }
        """;

    [BrowserFact]
    public async Task A_new_state_is_added_by_data_alone_and_reported_to()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10), street: "5 Sagebrush Lane");
        await office.WithDbAsync(async db => { (await db.Houses.SingleAsync(h => h.Id == house)).State = "WY"; await db.SaveChangesAsync(); });
        var desk = await office.OwnerAtAsync(script: false);
        await desk.GoAsync("/state-reports/profiles");
        await desk.LeaveByAsync(desk.Page.GetByRole(Microsoft.Playwright.AriaRole.Link, new() { Name = "Add a profile" }));
        await desk.FillAsync(("Text", Profile));
        await desk.PressAsync("Add the profile");
        await desk.SeesAsync("15 days after the period");
        await desk.FillAsync(("Input.StartsOn", "2/1/2026"), ("Input.CompanyNumber", "WY-3"), ("Input.SignedBy", "Ada Quill"));
        await desk.PressAsync("Report under this profile");
        await desk.GoAsync("/");
        await desk.SeesAsync("My state, monthly: freeze the report of February 2026");
        await desk.GoAsync("/state-reports/my-state/2026-02");
        await desk.SeesAsync("Mar 15, 2026");
        await desk.PressAsync("Freeze this report");
        await desk.SeesAsync("What was frozen never changes");
        await desk.SeesAsync("$12.00");
        var csv = await office.WithDbAsync(db => db.ReportRuns.Join(db.Documents, r => r.CsvDocumentId, d => (int?)d.Id, (r, d) => d.Bytes).SingleAsync());
        var tag = await office.WithDbAsync(db => db.Systems.Select(s => s.TagNumber).SingleAsync());
        Assert.Equal($"tag,Where,On,Form\r\n{tag},5 Sagebrush Lane,02/10/2026,A\r\n", System.Text.Encoding.UTF8.GetString(csv));
        await desk.GoAsync("/state-reports/my-state/proof");
        await desk.SeesAsync("It adds up.");
        Assert.Empty((await office.WithDbAsync(db => VerifyReports.RunAsync(db))).Problems);
        Assert.Empty(desk.Complaints);
    }
}
