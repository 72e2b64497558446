using System.Net;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Web.Tests.Shop;

public sealed class InstrumentTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static Dictionary<string, string> Typed(string serial, string doneOn = "1/10/2026") => new()
    {
        ["Input.Kind"] = "ContinuousMonitor", ["Input.Serial"] = serial, ["Input.Model"] = "Hourglass 2", ["Input.Rows[0].DoneOn"] = doneOn, ["Input.Rows[0].DoneBy"] = "Birchford Test House",
    };

    [Fact]
    public async Task A_monitor_is_entered_and_its_next_calibration_is_twelve_months_later()
    {
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/shop/instruments/new", Typed("A-1"))).StatusCode);
        var kept = await office.WithDbAsync(db => db.Instruments.AsNoTracking().Include(i => i.Calibrations).SingleAsync(i => i.Serial == "A-1"));
        Assert.Equal(new DateOnly(2027, 1, 10), kept.Calibrations[0].DueOn);
        Assert.Contains("A-1", await desk.TextAsync("/shop/instruments"), StringComparison.Ordinal);
        Assert.Contains("A-1,Hourglass 2", await desk.GetStringAsync("/shop/instruments?handler=csv"), StringComparison.Ordinal);
        var again = await desk.SubmitAsync("/shop/instruments/new", Typed("a 1"));
        Assert.Contains("with the serial number A-1 already", await again.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_due_stands_on_today_and_bad_days_are_refused()
    {
        var desk = await office.SignInAsOfficeAsync();
        Assert.Equal(HttpStatusCode.Redirect, (await desk.SubmitAsync("/shop/instruments/new", Typed("B-2", "2/1/2025"))).StatusCode);
        var today = await desk.TextAsync("/");
        Assert.Contains("B-2, Hourglass 2", today, StringComparison.Ordinal);
        Assert.Contains("set it out no more until it is back", today, StringComparison.Ordinal);
        Assert.Contains("calibration overdue", await desk.TextAsync("/shop/instruments?find=b-2"), StringComparison.Ordinal);
        Assert.Contains("time to come", await (await desk.SubmitAsync("/shop/instruments/new", Typed("B-3", "3/1/2030"))).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("at least one letter or digit", await (await desk.SubmitAsync("/shop/instruments/new", Typed("–"))).TextAsync(), StringComparison.Ordinal);
        Assert.Contains("Write the serial number", await (await desk.SubmitAsync("/shop/instruments/new", Typed(""))).TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_second_tab_keeps_what_was_typed()
    {
        var desk = await office.SignInAsOfficeAsync();
        await desk.SubmitAsync("/shop/instruments/new", Typed("C-3"));
        var id = await office.WithDbAsync(db => db.Instruments.Where(i => i.Serial == "C-3").Select(i => i.Id).SingleAsync());
        await desk.SubmitAsync($"/shop/instruments/{id}", new() { ["Input.KeptBy"] = "Cleo" });
        var late = await desk.SubmitAsync($"/shop/instruments/{id}", new() { ["Version"] = "0", ["Input.KeptBy"] = "Bram" });
        Assert.Contains("They saved “Cleo”; you wrote “Bram”", await late.TextAsync(), StringComparison.Ordinal);
        await desk.SubmitAsync($"/shop/instruments/{id}", new() { ["Input.Retired"] = "true" });
        Assert.DoesNotContain("C-3", await desk.TextAsync("/shop/instruments"), StringComparison.Ordinal);
        Assert.Contains("C-3", await desk.TextAsync("/shop/instruments?retired=true"), StringComparison.Ordinal);
    }
}
