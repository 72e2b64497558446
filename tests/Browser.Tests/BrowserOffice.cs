using Microsoft.Playwright;
using MitigationOffice.Web.Tests;
using MitigationOffice.Web.Tests.Messages;

namespace MitigationOffice.Browser.Tests;

/// <summary>The office on a real port, a real SMTP server beside it, and Chromium in front.</summary>
public sealed class BrowserOffice : OfficeApp
{
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome", "/snap/bin/chromium"];
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public static string? Chromium { get; } = Environment.GetEnvironmentVariable("CHROMIUM") ?? Places.FirstOrDefault(File.Exists);

    public MailSink Mail { get; } = new();

    protected override bool RealPort => true;

    public override async Task InitializeAsync()
    {
        Settings["Mail:Host"] = "127.0.0.1";
        Settings["Mail:Port"] = $"{Mail.Port}";
        await base.InitializeAsync();
        if (Chromium is null) return;
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Chromium,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    public override async Task DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
        await Mail.DisposeAsync();
        await base.DisposeAsync();
    }

    /// <summary>A window of its own, with its own cookies; a script error or a refused resource fails the test at its end.</summary>
    public async Task<BrowserWindow> OpenAsync(int width = 1340, int height = 900, bool script = true, ColorScheme scheme = ColorScheme.Light)
    {
        var context = await _browser!.NewContextAsync(new()
        {
            BaseURL = Address!.ToString(), ViewportSize = new() { Width = width, Height = height }, JavaScriptEnabled = script, ColorScheme = scheme, AcceptDownloads = true,
        });
        return new BrowserWindow(await context.NewPageAsync());
    }

    public async Task<BrowserWindow> OwnerAtAsync(int width = 1340, bool script = true, ColorScheme scheme = ColorScheme.Light)
    {
        var window = await OpenAsync(width, script: script, scheme: scheme);
        await SignInAsync(window);
        return window;
    }

    /// <summary>A browser of its own with a profile on disk, as on a tablet: what it keeps is there after it was killed.</summary>
    public async Task<IBrowserContext> TabletAsync(string profile) =>
        await _playwright!.Chromium.LaunchPersistentContextAsync(profile, new()
        {
            ExecutablePath = Chromium,
            BaseURL = Address!.ToString(),
            ViewportSize = new() { Width = 800, Height = 1100 },
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });

    /// <summary>Signs in as the owner; again after the clock was turned past the end of a session.</summary>
    public static async Task SignInAsync(BrowserWindow window)
    {
        await window.GoAsync("/sign-in");
        await window.FillAsync(("Input.Email", "owner@lanternridge.example"), ("Input.Password", Password));
        await window.PressAsync("Sign in");
    }
}

/// <summary>One browser window and the few things a person does in it.</summary>
public sealed class BrowserWindow
{
    private readonly List<string> _complaints = [];

    public BrowserWindow(IPage page)
    {
        Page = page;
        page.SetDefaultTimeout(20_000);
        page.Console += (_, message) => { if (message.Type == "error" && !message.Text.Contains("404", StringComparison.Ordinal)) _complaints.Add(message.Text); };
        page.PageError += (_, error) => _complaints.Add(error);
    }

    public IPage Page { get; }
    public IReadOnlyList<string> Complaints => _complaints;
    public string Path => new Uri(Page.Url).PathAndQuery;

    public async Task GoAsync(string path)
    {
        var answer = await Page.GotoAsync(path);
        Assert.True(answer!.Ok, $"{path} answered {answer.Status}");
    }

    public async Task FillAsync(params (string Name, string Value)[] fields)
    {
        foreach (var (name, value) in fields) await FillOneAsync(name, value);
    }

    private async Task FillOneAsync(string name, string value)
    {
        var field = Page.Locator($"main [name=\"{name}\"]:not([type=hidden])").First;
        if (await field.EvaluateAsync<bool>("e => e.tagName === 'SELECT'")) await field.SelectOptionAsync(value);
        else if (await field.GetAttributeAsync("type") == "checkbox") await field.SetCheckedAsync(value == "true");
        else await field.FillAsync(value);
    }

    public async Task PressAsync(string button, string within = "main")
    {
        await LeaveByAsync(Page.Locator(within).GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).First);
        var refused = Page.Locator("#refusals");
        if (await refused.CountAsync() > 0) Assert.Fail($"After “{button}” on {Path}: {await refused.InnerTextAsync()}");
    }

    /// <summary>Clicks what leads to another page and waits until that page stands. The browser's own "load" event may fire before one listens.</summary>
    public async Task LeaveByAsync(ILocator link)
    {
        await Page.EvaluateAsync("() => { document.documentElement.dataset.before = '1' }");
        await link.ClickAsync();
        for (var tries = 0; tries < 300; tries++)
        {
            await Task.Delay(50);
            try
            {
                if (await Page.EvaluateAsync<bool>("() => !document.documentElement.dataset.before && document.readyState === 'complete'")) return;
            }
            catch (PlaywrightException)
            {
                // The page is just being replaced.
            }
        }

        Assert.Fail($"Nothing came after the click on {Path}.");
    }

    /// <summary>Waits until the device holds the open sheet with all its parts and can show it without a connection.</summary>
    public Task KeptReadyAsync() => Page.WaitForFunctionAsync("() => document.querySelector('form[data-keep=ready]') && navigator.serviceWorker.controller");

    /// <summary>The connection comes back. Chromium may or may not tell the page by itself; a page that leaves at once ends the call.</summary>
    public async Task OnlineAsync()
    {
        await Page.Context.SetOfflineAsync(false);
        try
        {
            await Page.EvaluateAsync("() => { window.dispatchEvent(new Event('online')) }");
        }
        catch (PlaywrightException e) when (e.Message.Contains("context was destroyed", StringComparison.Ordinal))
        {
            // It was told already, sent the sheet and went on.
        }
    }

    public Task<string> TextAsync() => Page.Locator("main").InnerTextAsync();

    public async Task SeesAsync(string words)
    {
        var text = await TextAsync();
        Assert.True(text.Contains(words, StringComparison.Ordinal), $"“{words}” is not on {Path}:\n{text}");
    }
}

/// <summary>A test that needs Chromium; skipped by name and reason where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute()
    {
        if (BrowserOffice.Chromium is null) Skip = "Needs Chromium: install it, or name it in the environment's CHROMIUM.";
    }
}
