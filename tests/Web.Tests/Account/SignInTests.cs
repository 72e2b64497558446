using System.Net;

namespace MitigationOffice.Web.Tests.Account;

public sealed class SignInTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    [Fact]
    public async Task A_visitor_is_sent_to_sign_in()
    {
        var answer = await office.Visitor().GetAsync("/");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.StartsWith("/sign-in", answer.Headers.Location!.PathAndQuery, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_owner_signs_in_and_sees_today()
    {
        var owner = await office.SignInAsOwnerAsync();
        Assert.Contains("Today", await owner.TextAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Five_wrong_passwords_rest_the_account()
    {
        await office.AddPersonAsync("rest@lanternridge.example", "Rest Me", Business.Staff.StaffRole.Office);
        var visitor = office.Visitor();
        for (var i = 0; i < 5; i++)
            await visitor.SubmitAsync("/sign-in", new() { ["Input.Email"] = "rest@lanternridge.example", ["Input.Password"] = "wrong wrong wrong" });
        var right = await visitor.SubmitAsync("/sign-in", new() { ["Input.Email"] = "rest@lanternridge.example", ["Input.Password"] = OfficeApp.Password });
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
        Assert.Contains("do not open the office", await right.TextAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_copied_cookie_is_worthless_after_sign_out()
    {
        await office.AddPersonAsync("out@lanternridge.example", "Out Now", Business.Staff.StaffRole.Office);
        var first = await office.SignInAsync("out@lanternridge.example");
        var second = await office.SignInAsync("out@lanternridge.example");
        await first.SubmitAsync("/", [], "form[action='/account/sign-out']");
        office.Clock.Advance(TimeSpan.FromMinutes(2));
        Assert.Equal(HttpStatusCode.Redirect, (await second.GetAsync("/")).StatusCode);
    }

    [Theory]
    [InlineData("//evil.example")]
    [InlineData("https://evil.example")]
    [InlineData("/\\evil.example")]
    public async Task A_link_to_elsewhere_is_not_followed_after_sign_in(string back)
    {
        var answer = await office.Visitor().SubmitAsync(
            $"/sign-in?back={Uri.EscapeDataString(back)}", new() { ["Input.Email"] = "desk@lanternridge.example", ["Input.Password"] = OfficeApp.Password });
        Assert.Equal("/", answer.Headers.Location!.OriginalString);
    }
}
