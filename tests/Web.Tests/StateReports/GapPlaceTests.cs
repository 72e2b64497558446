using System.Net;
using AngleSharp.Html.Parser;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Business.StateReports.Profiles;
using MitigationOffice.Web.Pages.StateReports;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.StateReports;

/// <summary>Where a value that is missing or doubtful is entered.</summary>
public sealed class GapPlaceTests : IAsyncLifetime
{
    private readonly OfficeApp _office = new();

    public Task InitializeAsync() => _office.InitializeAsync();

    public async Task DisposeAsync() => await _office.DisposeAsync();

    [Fact]
    public async Task Every_value_leads_to_a_page_that_opens_and_to_a_field_that_stands_on_it()
    {
        await _office.HouseWithPassedTestAsync();
        var system = Assert.Single((await _office.PreviewAsync("2026-03")).Plan.Places).System;
        var owner = await _office.SignInAsOwnerAsync();
        var wrong = new List<string>();
        foreach (var field in ReportFields.All.Where(f => f.Of != FieldOf.Row && f.Name is not ("report_period" or "no_work")))
        {
            var parts = GapPlace.Of(new ReportGap(field.Of == FieldOf.System ? system : null, field.Name, "", false), ProfileBook.General).Split('#');
            var answer = await owner.GetAsync(parts[0].Length > 0 ? parts[0] : "/state-reports/general-month/2026-02");
            var page = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
            if (answer.StatusCode != HttpStatusCode.OK || (parts.Length > 1 && page.GetElementById(parts[1]) is null)) wrong.Add($"{field.Name}: {string.Join('#', parts)}");
            if (parts.Length == 1 || parts[1] is "plan" or "as-built" || parts[1].StartsWith("test-", StringComparison.Ordinal)) wrong.Add($"{field.Name} leads to no field");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }
}
