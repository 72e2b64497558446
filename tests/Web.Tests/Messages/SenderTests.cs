using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using MitigationOffice.Business.Messages.Sender;

namespace MitigationOffice.Web.Tests.Messages;

/// <summary>The self-check of the sender, held against records that RFC 7208, 6376 and 7489 print or rule out.</summary>
[Trait("Database", "either")]
public sealed class SenderTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private static string Said(IEnumerable<Finding> findings, Stands stands) => string.Join(' ', findings.Where(f => f.Stands == stands).Select(f => f.Words));

    /// <summary>RFC 7208 appendix A.1 and section 4.6.4; the wrong ones from sections 4.5, 4.6.1, 5.1 and 5.5.</summary>
    [Theory]
    [InlineData("v=spf1 +mx a:colo.example.com/28 -all", Stands.Right, "-all")]
    [InlineData("v=spf1 ip4:192.0.2.128/28 ~all", Stands.Right, "~all")]
    [InlineData("v=spf1 ip6:2001:db8::/32 redirect=_spf.example.com", Stands.Right, "redirect")]
    [InlineData("v=spf1 include:a.example +all", Stands.Change, "every server in the world")]
    [InlineData("v=spf1 ptr -all", Stands.Change, "ptr")]
    [InlineData("v=spf1 ip4:300.1.2.3 -all", Stands.Change, "ip4:300.1.2.3")]
    [InlineData("v=spf1 ip4:1.2.3.4/40 -all", Stands.Change, "ip4:1.2.3.4/40")]
    [InlineData("v=spf1 inclde:a.example -all", Stands.Change, "inclde")]
    [InlineData("v=spf1 -all", Stands.Change, "no server")]
    [InlineData("v=spf1 include:a.example", Stands.Look, "does not end with")]
    [InlineData("v=spf1 include:a.b include:a.c include:a.d include:a.e include:a.f include:a.g include:a.h include:a.i include:a.j mx a -all", Stands.Change, "11 names")]
    [InlineData("v=spf10 -all", Stands.Change, "There is no SPF record")]
    public void Spf(string record, Stands stands, string words) => Assert.Contains(words, Said(JudgeSpf.Of([record]), stands), StringComparison.Ordinal);

    [Fact]
    public void Two_spf_records_are_an_error() => Assert.Contains("2 SPF records", Said(JudgeSpf.Of(["v=spf1 mx -all", "v=spf1 a -all"]), Stands.Change), StringComparison.Ordinal);

    [Theory]
    [InlineData(512, Stands.Change, "shorter than 1024")]
    [InlineData(1024, Stands.Look, "1024 bits")]
    [InlineData(2048, Stands.Right, "2048 bits")]
    public void A_dkim_key_by_its_length(int bits, Stands stands, string words)
    {
        using var rsa = RSA.Create(bits);
        var key = Convert.ToBase64String(rsa.ExportSubjectPublicKeyInfo());
        Assert.Contains(words, Said(JudgeDkim.Of($"v=DKIM1; k=rsa; p={key}"), stands), StringComparison.Ordinal);
        // As zone files have it: in strings of at most 255 characters.
        Assert.Contains(words, Said(JudgeDkim.Of($"\"v=DKIM1; k=rsa; p={key[..60]}\" \"{key[60..]}\""), stands), StringComparison.Ordinal);
        Assert.Contains("damaged", Said(JudgeDkim.Of($"v=DKIM1; k=rsa; p={key[..48]}"), Stands.Change), StringComparison.Ordinal);
    }

    /// <summary>The key that RFC 6376 appendix C prints (from memory: 1024 bits), and records its section 3.6.1 rules out.</summary>
    [Theory]
    [InlineData("v=DKIM1; p=", Stands.Change, "taken back")]
    [InlineData("v=DKIM2; p=AAAA", Stands.Change, "v= must be DKIM1")]
    [InlineData("v=DKIM1; k=rsa", Stands.Change, "no p= part")]
    [InlineData("v=DKIM1; p=AA; p=BB", Stands.Change, "twice")]
    [InlineData("", Stands.Change, "no DKIM key")]
    [InlineData("v=DKIM1; k=ed25519; p=11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=", Stands.Right, "Ed25519")]
    [InlineData("v=DKIM1; t=y; k=ed25519; p=11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=", Stands.Look, "only testing")]
    public void Dkim(string record, Stands stands, string words) => Assert.Contains(words, Said(JudgeDkim.Of(record), stands), StringComparison.Ordinal);

    /// <summary>RFC 7489 appendix B.2.1 and section 6.3.</summary>
    [Theory]
    [InlineData("v=DMARC1; p=none; rua=mailto:dmarc-feedback@example.com", Stands.Look, "only watches")]
    [InlineData("v=DMARC1; p=quarantine; rua=mailto:dmarc-feedback@example.com,mailto:tld-test@thirdparty.example.net!10m; pct=25", Stands.Look, "25 percent")]
    [InlineData("v=DMARC1; p=reject", Stands.Right, "refused")]
    [InlineData("v=DMARC1; p=reject", Stands.Look, "No reports")]
    [InlineData("v=DMARC1; p=refuse", Stands.Change, "not a policy")]
    [InlineData("v=DMARC1; rua=mailto:a@b.example", Stands.Change, "p= is missing")]
    [InlineData("v=DMARC1; p=none; aspf=x", Stands.Change, "aspf=x")]
    [InlineData("", Stands.Change, "no DMARC policy")]
    public void Dmarc(string record, Stands stands, string words) => Assert.Contains(words, Said(JudgeDmarc.Of([record]), stands), StringComparison.Ordinal);

    /// <summary>The examples of RFC 7489 appendix B.1: exact match, relaxed match, no match.</summary>
    [Theory]
    [InlineData("example.com", "example.com", false, Stands.Right)]
    [InlineData("child.example.com", "example.com", false, Stands.Right)]
    [InlineData("child.example.com", "example.com", true, Stands.Change)]
    [InlineData("example.com", "sample.net", false, Stands.Change)]
    public void Alignment(string from, string signs, bool strict, Stands stands) =>
        Assert.Contains(JudgeAlignment.Of(from, signs, strict, "bounces.other.example", false), f => f.Stands == stands && f.Words.Contains(signs, StringComparison.Ordinal));

    [Fact]
    public async Task The_page_judges_what_is_pasted_without_any_network()
    {
        var desk = await office.SignInAsOfficeAsync();
        var answer = await desk.SubmitAsync("/follow-up/sender", new() { ["Input.Spf"] = "v=spf1 include:mail.example -all", ["Input.Dmarc"] = "v=DMARC1; p=none", ["Input.SignsFor"] = "lanternridge.example" }, button: "button:not([formaction])");
        var text = await answer.TextAsync();
        Assert.Contains("mail from other servers is not yours", text, StringComparison.Ordinal);
        Assert.Contains("only watches", text, StringComparison.Ordinal);
        Assert.Contains("signs for lanternridge.example, the sender's own domain", text, StringComparison.Ordinal);
        Assert.Contains("no DKIM key", text, StringComparison.Ordinal);
        Assert.Contains("Write the domain", await (await desk.SubmitAsync("/follow-up/sender", new() { ["Input.Domain"] = "no domain!" }, button: "button:not([formaction])")).TextAsync(), StringComparison.Ordinal);
    }
}

/// <summary>The same page with a name server to ask: a real one on this machine's loopback.</summary>
[Trait("Database", "either")]
public sealed class SenderLookUpTests : IAsyncLifetime
{
    private readonly OfficeApp office = new();
    private readonly NameServer names = new();

    public Task InitializeAsync()
    {
        office.Settings["Dns:Seconds"] = "1";
        office.Settings["Dns:Server"] = $"127.0.0.1:{names.Port}";
        return office.InitializeAsync();
    }

    public async Task DisposeAsync()
    {
        await office.DisposeAsync();
        names.Dispose();
    }

    [Fact]
    public async Task The_records_are_looked_up_and_included_ones_counted()
    {
        names.Texts["lanternridge.example"] = ["some other text", "v=spf1 include:one.example ~all"];
        names.Texts["one.example"] = ["v=spf1 a mx include:two.example -all"];
        names.Texts["two.example"] = ["v=spf1 a a:x.example -all"];
        names.Texts["_dmarc.lanternridge.example"] = ["v=DMARC1; p=quarantine; rua=mailto:office@lanternridge.example"];
        var desk = await office.SignInAsOfficeAsync();
        var text = await (await desk.SubmitAsync("/follow-up/sender", new() { ["Input.Selector"] = "s1" }, button: "button[formaction]")).TextAsync();
        Assert.Contains("6 look-ups, included records counted", text, StringComparison.Ordinal);
        Assert.Contains("p=quarantine", text, StringComparison.Ordinal);
        Assert.Contains("There is no DKIM key", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_name_server_that_is_silent_leaves_what_was_pasted()
    {
        names.Silent = true;
        var desk = await office.SignInAsOfficeAsync();
        var text = await (await desk.SubmitAsync("/follow-up/sender", new() { ["Input.Spf"] = "v=spf1 mx -all" }, button: "button[formaction]")).TextAsync();
        Assert.Contains("paste the records instead", text, StringComparison.Ordinal);
        Assert.Contains("mail from other servers is not yours", text, StringComparison.Ordinal);
    }
}
