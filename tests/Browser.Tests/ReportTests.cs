using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Tests;
using MitigationOffice.Web.Tests.FollowUp;
using static MitigationOffice.Web.Tests.FollowUp.FollowUpVerbs;

namespace MitigationOffice.Browser.Tests;

/// <summary>A state the program has never heard of, added field by field without script, and reported to.</summary>
public sealed class ReportTests(BrowserOffice office) : IClassFixture<BrowserOffice>
{
    [BrowserFact]
    public async Task A_new_state_is_added_by_data_alone_and_reported_to()
    {
        var (house, _) = await office.AddHouseWithSystemAsync("", Utc(2026, 2, 10), street: "5 Sagebrush Lane");
        await office.WithDbAsync(async db => { (await db.Houses.SingleAsync(h => h.Id == house)).State = "WY"; await db.SaveChangesAsync(); });
        var desk = await office.OwnerAtAsync(script: false);
        await desk.GoAsync("/state-reports/profiles");
        await desk.LeaveByAsync(desk.Page.GetByRole(Microsoft.Playwright.AriaRole.Link, new() { Name = "Add a profile" }));
        await desk.FillAsync(
            ("Input.Code", "my-state"), ("Input.Name", "My state, monthly"), ("Input.Jurisdiction", "My state"), ("Input.State", "WY"), ("Input.Citation", "A rule made up for this test"),
            ("Input.DeadlineRule", "days-after-period"), ("Input.DeadlineDays", "15"), ("Input.Fee", "12"), ("Input.Xlsx", "false"), ("Input.Pdf", "false"), ("Input.Columns[1].Name", "Where"));
        await desk.PressAsync("Take out column 4");
        await desk.PressAsync("Take out column 3");
        await desk.PressAsync("Add a column");
        await desk.Page.Locator("summary[aria-label='More of column 3']").ClickAsync();
        await desk.FillAsync(("Input.Columns[2].From", ""), ("Input.Columns[2].Name", "Form"), ("Input.Columns[2].Value", "A"));
        await desk.PressAsync("Add a column");
        await desk.FillAsync(("Input.Columns[3].From", "fan_activation_date"), ("Input.Columns[3].Name", "Where"), ("Input.Columns[3].Format", "MM/dd/yyyy"));
        await desk.PressAsync("Move column 4 up");
        await desk.LeaveByAsync(desk.Page.GetByRole(Microsoft.Playwright.AriaRole.Button, new() { Name = "Add the profile" }).First);
        await desk.SeesAsync("Two fields have the name “Where”");
        await desk.FillAsync(("Input.Columns[2].Name", "On"));
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
