using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;
using MitigationOffice.Business.Houses;
using MitigationOffice.Web.Setup.Demo;

namespace MitigationOffice.Browser.Tests;

/// <summary>The main pages with the demo company in them: axe with the WCAG 2.2 rules on, no sideways scrolling at 320 px, no script errors.
/// With OFFICE_PICTURES=1 their pictures are written to docs/pictures.</summary>
public sealed class PagesTests(DemoOffice demo) : IClassFixture<DemoOffice>
{
    internal static readonly string? Pictures = Environment.GetEnvironmentVariable("OFFICE_PICTURES") is { Length: > 0 } ? FindPictures() : null;

    /// <summary>The drawings, whose dark and printed looks are kept too.</summary>
    private static readonly string[] InTheDark = ["plan", "coverage", "design", "siting", "winter"];

    [BrowserFact]
    public async Task The_main_pages_are_clean_wide()
    {
        await WalkAsync(await demo.Office.SignedInAsync(1340), "wide", ColorScheme.Light, AllRules);
    }

    [BrowserFact]
    public async Task The_main_pages_are_clean_on_a_phone()
    {
        await WalkAsync(await demo.Office.SignedInAsync(320), "320", ColorScheme.Light, Only("target-size", "scrollable-region-focusable", "color-contrast", "link-in-text-block", "meta-viewport"));
    }

    [BrowserFact]
    public async Task The_main_pages_are_clean_in_the_dark()
    {
        await WalkAsync(await demo.Office.SignedInAsync(1340, ColorScheme.Dark), "dark", ColorScheme.Dark, Only("color-contrast", "link-in-text-block"));
    }

    private static AxeRunOptions AllRules => new()
    {
        RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
        Rules = new() { ["target-size"] = new RuleOptions { Enabled = true } },
    };

    /// <summary>The rules that another width or other colours can break; the others say the same of the same page.</summary>
    private static AxeRunOptions Only(params string[] rules) => new() { RunOnly = new RunOnlyOptions { Type = "rule", Values = [.. rules] } };

    private async Task WalkAsync(BrowserWindow window, string name, ColorScheme scheme, AxeRunOptions rules)
    {
        var complaints = new List<string>();
        foreach (var (path, picture) in await demo.PathsAsync())
        {
            await window.GoAsync(path);
            var over = await window.Page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - window.innerWidth");
            if (over > 0) complaints.Add($"{path} scrolls sideways by {over} px at {name}");
            var axe = await window.Page.RunAxe(rules);
            complaints.AddRange(axe.Violations.Select(v => $"{path} ({name}): {v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Take(3).Select(n => n.Html))}"));
            if (Pictures is not null && picture is not null && (scheme == ColorScheme.Light || InTheDark.Contains(picture)))
                await window.Page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"{picture}-{name}.png"), FullPage = true });
        }

        complaints.AddRange(window.Complaints);
        Assert.True(complaints.Count == 0, string.Join('\n', complaints));
        if (Pictures is not null && name == "wide") await PrintAsync(window);
    }

    /// <summary>How the drawings come out on paper.</summary>
    private async Task PrintAsync(BrowserWindow window)
    {
        await window.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await window.Page.SetViewportSizeAsync(900, 1200);
        foreach (var (path, picture) in (await demo.PathsAsync()).Where(p => p.Picture is not null && InTheDark.Contains(p.Picture)))
        {
            await window.GoAsync(path);
            await window.Page.ScreenshotAsync(new() { Path = Path.Combine(Pictures!, $"{picture}-print.png"), FullPage = true });
        }
    }

    private static string FindPictures()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "MitigationOffice.sln"))) folder = folder.Parent!;
        return Directory.CreateDirectory(Path.Combine(folder.FullName, "docs", "pictures")).FullName;
    }
}

/// <summary>An office with the demo company loaded.</summary>
public sealed class DemoOffice : IAsyncLifetime
{
    public BrowserOffice Office { get; } = new();

    public async Task InitializeAsync()
    {
        await Office.InitializeAsync();
        await using var scope = Office.Services.CreateAsyncScope();
        await LoadDemo.RunAsync(scope.ServiceProvider, CancellationToken.None);
        await LayScanAsync();
    }

    public Task DisposeAsync() => Office.DisposeAsync();

    /// <summary>A scanned plan under the drawn one.</summary>
    private Task LayScanAsync() => Office.WithDbAsync(async db =>
    {
        var house = await db.Houses.Where(h => h.Street == "31 Cooper's Yard").Select(h => h.Id).SingleAsync();
        var clean = CleanPicture.Of(Scan.Of(1200, 900));
        var scan = StoredDocument.Of(clean.Bytes, PaperKind.PlanPicture, "Picture under the floor plan", "scan.png", clean.ContentType, house, new DateTime(2026, 3, 2, 0, 0, 0, DateTimeKind.Utc), "Ada Quill");
        db.Add(scan);
        await db.SaveChangesAsync();
        db.Add(new PlanBackdrop { HouseId = house, DocumentId = scan.Id, WidthPx = clean.WidthPx, HeightPx = clean.HeightPx, FromXPx = 150, FromYPx = 820, ToXPx = 1050, ToYPx = 820, LengthM = 36 * 0.3048 });
        await db.SaveChangesAsync();
    });

    /// <summary>Addresses of the main pages and the name of the picture each leaves.</summary>
    public async Task<IReadOnlyList<(string Path, string? Picture)>> PathsAsync()
    {
        Task<int> HouseAsync(string street) => Office.WithDbAsync(db => db.Houses.Where(h => h.Street == street).Select(h => h.Id).SingleAsync());
        var (quoted, proven, late) = (await HouseAsync("14 Larkspur Hill"), await HouseAsync("51 Meadowlark Drive"), await HouseAsync("12 Old Ferry Landing"));
        var (drawn, two) = (await HouseAsync("31 Cooper's Yard"), await HouseAsync("5 Bellwether Lane"));
        var branched = await Office.WithDbAsync(db => db.Designs.Where(d => d.HouseId == two).Select(d => d.Id).SingleAsync());
        var job = await Office.WithDbAsync(db => db.Jobs.Where(j => j.HouseId == proven).Select(j => j.Id).FirstAsync());
        return
        [
            ($"/houses/{proven}/work/as-built?job={job}", null), ($"/houses/{proven}/work/photos?job={job}", null),
            ("/", "today"), ("/houses", "houses"), ("/houses/new", "new-house"), ($"/houses/{quoted}/inquiry", "inquiry"), ($"/houses/{quoted}/diagnosis", "diagnosis"),
            ($"/houses/{drawn}/plan", "plan"), ($"/houses/{drawn}/coverage?best=1", "coverage"), ($"/houses/{quoted}/diagnosis/readings", null), ($"/houses/{quoted}/design", "design"), ($"/houses/{quoted}/design/route", null), ($"/houses/{two}/design", null), ($"/houses/{two}/design/route/{branched}", null), ($"/houses/{quoted}/quote", "quote"),
            ($"/houses/{late}/work", "work"), ($"/houses/{proven}/work", null), ($"/houses/{proven}/proof", "proof"), ($"/houses/{proven}/follow-up", "house-follow-up"),
            ($"/houses/{proven}/papers", "papers"), ("/customers", null), ("/quotes", "quotes"), ("/work", "work-list"), ("/tests", "tests"), ("/follow-up", "follow-up"),
            ("/follow-up/rules", null), ("/state-reports", "state-reports"), ("/state-reports/general-month/2026-02", "state-report"), ("/state-reports/general-month/proof", "state-proof"),
            ("/state-reports/profiles", null), ("/state-reports/profiles/pennsylvania", "state-profile"), ("/state-reports/profiles/new", null), ("/state-reports/records", null), ("/shop", "shop"), ("/shop/company", null), ("/shop/prices", "prices"), ("/shop/fans", "fans"),
            ($"/houses/{drawn}/plan/picture", "plan-picture"), ($"/houses/{two}/design/siting", "siting"), ($"/houses/{quoted}/design/siting", null), ($"/houses/{quoted}/design/winter", "winter"),
            ($"/houses/{two}/design/climate", null), ($"/houses/{quoted}/design/materials", "materials"), ($"/houses/{proven}/money", "house-money"), ("/money", "money"), ("/work/predictions", "predictions"),
            ("/shop/rules", "rules"), ("/shop/rules/us-pa", null),
            ("/shop/import", null), ("/shop/licences", null), ("/shop/staff", null),
        ];
    }
}

internal static class DemoWindows
{
    /// <summary>A window in which the demo's owner is signed in.</summary>
    public static Task<BrowserWindow> SignedInAsync(this BrowserOffice office, int width, ColorScheme scheme = ColorScheme.Light) => office.OwnerAtAsync(width, scheme: scheme);
}
