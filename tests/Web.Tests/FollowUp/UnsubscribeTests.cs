using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Messages;
using MitigationOffice.Web.Tests.Messages;
using static MitigationOffice.Web.Tests.Messages.MailVerbs;

namespace MitigationOffice.Web.Tests.FollowUp;

/// <summary>RFC 8058 section 3: the POST carries no cookie and no token of a form, comes in either body form, and is answered without a redirect.</summary>
public sealed partial class UnsubscribeTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();

    public Task InitializeAsync() => office.InitializeAsync();

    public Task DisposeAsync() => office.DisposeAsync();

    private async Task<string> LinkAsync(MailClass kind = MailClass.Upkeep)
    {
        await office.QueueLetterAsync(ALetter($"unsub {kind}", "stop@wren.example", kind));
        await office.SendOutboxAsync();
        return Link().Match(office.MailTo("stop@wren.example")[^1].TextBody!).Value;
    }

    private Task<List<Suppression>> StoppedAsync() => office.WithDbAsync(db => db.Suppressions.AsNoTracking().ToListAsync());

    [Fact]
    public async Task Looking_changes_nothing_and_sets_no_cookie()
    {
        var answer = await office.Visitor().GetAsync(await LinkAsync());
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.False(answer.Headers.Contains("Set-Cookie"));
        Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        var text = await answer.TextAsync();
        Assert.Contains("s…@wren.example", text, StringComparison.Ordinal);
        Assert.DoesNotContain("stop@", text, StringComparison.Ordinal);
        await office.Visitor().SendAsync(new HttpRequestMessage(HttpMethod.Head, await LinkAsync()));
        Assert.Empty(await StoppedAsync());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task One_click_works_in_both_body_forms_at_once_and_twice(bool multipart)
    {
        var link = await LinkAsync();
        for (var i = 0; i < 2; i++)
        {
            using HttpContent body = multipart
                ? new MultipartFormDataContent { { new StringContent("One-Click"), "List-Unsubscribe" } }
                : new FormUrlEncodedContent([new("List-Unsubscribe", "One-Click")]);
            var answer = await office.Visitor().PostAsync(link, body);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.False(answer.Headers.Contains("Set-Cookie"));
        }

        Assert.Equal([MailClass.Upkeep, MailClass.Commercial], (await StoppedAsync()).Select(s => s.Class!.Value).Order());
        var id = await office.QueueLetterAsync(ALetter("after", "STOP@wren.example", MailClass.Upkeep));
        await office.SendOutboxAsync();
        Assert.Equal(DeliveryState.Suppressed, (await office.MessageAsync(id)).State);
    }

    [Fact]
    public async Task The_button_of_the_page_does_the_same()
    {
        var answer = await office.Visitor().SubmitAsync(await LinkAsync(MailClass.Commercial), []);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("Done", await answer.TextAsync(), StringComparison.Ordinal);
        Assert.Equal(MailClass.Commercial, Assert.Single(await StoppedAsync()).Class);
    }

    [Fact]
    public async Task An_unknown_link_tells_nothing()
    {
        var (get, post) = (await office.Visitor().GetAsync("/unsubscribe/" + new string('a', 43)), await office.Visitor().PostAsync("/unsubscribe/" + new string('a', 43), null));
        Assert.Equal((HttpStatusCode.NotFound, HttpStatusCode.NotFound), (get.StatusCode, post.StatusCode));
        Assert.Empty(await StoppedAsync());
    }

    [Fact]
    public async Task The_secret_is_stored_hashed()
    {
        var token = (await LinkAsync()).Split('/')[^1];
        Assert.Equal(43, token.Length);
        Assert.DoesNotContain(token, await office.WithDbAsync(db => db.UnsubscribeLinks.Select(l => l.TokenHash).SingleAsync()), StringComparison.Ordinal);
        Assert.DoesNotContain(await office.WithDbAsync(db => db.Audit.Select(a => a.Changes).ToListAsync()), c => c.Contains(token, StringComparison.Ordinal));
    }

    [GeneratedRegex(@"/unsubscribe/\S+")]
    private static partial Regex Link();
}
