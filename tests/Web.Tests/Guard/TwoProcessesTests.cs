using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.AspNetCore.Mvc.Testing.Handlers;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Web.Tests.Houses;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>A test for a server database alone: an embedded one belongs to one process.</summary>
public sealed class ServerFactAttribute : FactAttribute
{
    public ServerFactAttribute()
    {
        if (Environment.GetEnvironmentVariable("OFFICE_TEST_POSTGRES") is null) Skip = "Needs OFFICE_TEST_POSTGRES.";
    }
}

/// <summary>Two web processes on one PostgreSQL database and one data folder, as behind a load balancer.</summary>
public sealed class TwoProcessesTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [ServerFact]
    public async Task Two_processes_share_the_sign_in()
    {
        await using var second = office.StartSecond();
        var (here, there) = BothWith(second, new CookieContainer());
        await here.SubmitAsync("/sign-in", new() { ["Input.Email"] = "desk@lanternridge.example", ["Input.Password"] = OfficeApp.Password });
        Assert.Equal(HttpStatusCode.OK, (await there.GetAsync("/houses/new")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await there.SubmitAsync("/houses", [], "form[action='/account/sign-out']")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await here.GetAsync("/houses")).StatusCode);
    }

    [ServerFact]
    public async Task A_form_sent_to_both_processes_at_once_acts_once()
    {
        await using var second = office.StartSecond();
        var (here, there) = BothWith(second, new CookieContainer());
        await here.SubmitAsync("/sign-in", new() { ["Input.Email"] = "desk@lanternridge.example", ["Input.Password"] = OfficeApp.Password });
        for (var i = 0; i < 10; i++)
        {
            var typed = HouseVerbs.Inquiry($"{i} Twin Alder Way", $"Twin {i} Alder");
            var page = await new HtmlParser().ParseDocumentAsync(await here.GetStringAsync("/houses/new"));
            foreach (var hidden in page.QuerySelectorAll("main form[method=post] input[type=hidden]")) typed.TryAdd(hidden.GetAttribute("name")!, hidden.GetAttribute("value") ?? "");
            Assert.Contains("_once", typed.Keys);
            var answers = await Task.WhenAll(new[] { here, there, here, there }.Select(c => c.PostAsync("/houses/new", new FormUrlEncodedContent(typed))));
            Assert.All(answers, a => Assert.Equal(HttpStatusCode.Redirect, a.StatusCode));
            Assert.Single(answers.Select(a => a.Headers.Location!.OriginalString).Distinct());
            Assert.Equal(1, await office.WithDbAsync(db => db.Houses.CountAsync(h => h.Street == $"{i} Twin Alder Way")));
        }
    }

    private (HttpClient Here, HttpClient There) BothWith(Microsoft.AspNetCore.Mvc.Testing.WebApplicationFactory<Program> second, CookieContainer cookies) =>
        (office.VisitorWith(new CookieContainerHandler(cookies)), second.CreateDefaultClient(new CookieContainerHandler(cookies)));
}
