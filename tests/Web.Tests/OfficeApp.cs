using System.Net;
using AngleSharp.Html.Parser;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Time.Testing;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Staff;
using Npgsql;

namespace MitigationOffice.Web.Tests;

/// <summary>The real program on a real database, with a clock the test turns and a folder of its own. SQLite unless the
/// environment's OFFICE_TEST_POSTGRES holds a connection string to a server in which databases may be made.</summary>
public class OfficeApp : IAsyncLifetime
{
    public static readonly DateTimeOffset Start = new(2026, 3, 2, 15, 0, 0, TimeSpan.Zero);
    public const string Password = "copper kettle seven larks";

    private readonly string _folder = Path.Combine(Path.GetTempPath(), "office-test-" + Path.GetRandomFileName());
    private readonly string? _server = Environment.GetEnvironmentVariable("OFFICE_TEST_POSTGRES");
    private readonly string _database = "office_" + Path.GetRandomFileName().Replace(".", "", StringComparison.Ordinal);
    private Running? _running;

    public FakeTimeProvider Clock { get; } = new(Start);
    public string Folder => _folder;
    public IServiceProvider Services => Factory.Services;
    public Uri? Address { get; private set; }

    /// <summary>Settings of this test's program, before it starts.</summary>
    public Dictionary<string, string?> Settings { get; } = [];

    /// <summary>True for a browser: a real port instead of an in-memory one.</summary>
    protected virtual bool RealPort => false;

    private Running Factory => _running ?? throw new InvalidOperationException("Not started.");

    /// <summary>The records every test begins with, made once: each office starts from a copy of them.</summary>
    private static readonly Lazy<Task<OfficeApp>> Pattern = new(MakePatternAsync);

    public virtual async Task InitializeAsync()
    {
        var pattern = await Pattern.Value;
        Directory.CreateDirectory(_folder);
        if (_server is null) File.Copy(pattern.Records, Records);
        else await OnServerAsync($"CREATE DATABASE {_database} TEMPLATE {pattern._database} STRATEGY FILE_COPY");
        StartProgram();
    }

    private string Records => Path.Combine(_folder, "office.db");

    private static async Task<OfficeApp> MakePatternAsync()
    {
        var pattern = new OfficeApp();
        Directory.CreateDirectory(pattern._folder);
        if (pattern._server is not null) await pattern.OnServerAsync($"CREATE DATABASE {pattern._database}");
        pattern.StartProgram();
        await pattern.WithDbAsync(async db =>
        {
            var company = await db.Company.SingleAsync();
            company.Name = "Lantern Ridge Radon";
            company.Email = "office@lanternridge.example";
            company.Street = "8 Quarry Lane";
            company.City = "Birchford";
            company.State = "MN";
            company.Zip = "55999";
            company.Phone = "555-0100";
            company.CertificationNumber = "TEST-001";
            await db.SaveChangesAsync();
        });
        await pattern.AddPersonAsync("owner@lanternridge.example", "Ada Quill", StaffRole.Owner);
        await pattern.AddPersonAsync("desk@lanternridge.example", "Bram Oster", StaffRole.Office);
        await pattern.AddPersonAsync("crew@lanternridge.example", "Cleo Marsh", StaffRole.Installer);
        await pattern.StopAsync();
        // The last connection that closes writes the log back into the file; a copy without it would lose what was just made.
        if (File.Exists(pattern.Records + "-wal")) throw new InvalidOperationException("The pattern's records are still open.");
        AppDomain.CurrentDomain.ProcessExit += (_, _) => pattern.ForgetAsync().GetAwaiter().GetResult();
        return pattern;
    }

    /// <summary>Stops the program and starts it again on the same records, as a restart of the machine would.</summary>
    public async Task RestartAsync()
    {
        await Factory.DisposeAsync();
        StartProgram();
    }

    public virtual async Task DisposeAsync()
    {
        await StopAsync();
        await ForgetAsync();
    }

    private async Task StopAsync()
    {
        if (_running is not null) await _running.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (_server is not null) NpgsqlConnection.ClearAllPools();
    }

    private async Task ForgetAsync()
    {
        if (_server is not null) await OnServerAsync($"DROP DATABASE IF EXISTS {_database} WITH (FORCE)");
        Directory.Delete(_folder, recursive: true);
    }

    public async Task<T> WithDbAsync<T>(Func<OfficeDb, Task<T>> act)
    {
        await using var scope = Services.CreateAsyncScope();
        return await act(scope.ServiceProvider.GetRequiredService<OfficeDb>());
    }

    public Task WithDbAsync(Func<OfficeDb, Task> act) => WithDbAsync(async db => { await act(db); return true; });

    /// <summary>Runs an act that takes services other than the database.</summary>
    public async Task<T> WithAsync<TService, T>(Func<TService, Task<T>> act)
        where TService : notnull
    {
        await using var scope = Services.CreateAsyncScope();
        return await act(scope.ServiceProvider.GetRequiredService<TService>());
    }

    public async Task AddPersonAsync(string email, string name, StaffRole role)
    {
        await using var scope = Services.CreateAsyncScope();
        var users = scope.ServiceProvider.GetRequiredService<Microsoft.AspNetCore.Identity.UserManager<StaffMember>>();
        var made = await users.CreateAsync(new StaffMember { UserName = email, Email = email, FullName = name, Role = role }, Password);
        Assert.True(made.Succeeded, string.Join(' ', made.Errors.Select(e => e.Description)));
    }

    public HttpClient Visitor() => Factory.CreateClient(new WebApplicationFactoryClientOptions { AllowAutoRedirect = false, BaseAddress = Address! });

    /// <summary>A visitor whose cookies a test holds.</summary>
    public HttpClient VisitorWith(DelegatingHandler cookies) => Factory.CreateDefaultClient(Address!, cookies);

    /// <summary>Another process of the same program on the same records and folder; a server database only. To be disposed by the test.</summary>
    public WebApplicationFactory<Program> StartSecond() => new Running(this);

    public Task<HttpClient> SignInAsOwnerAsync() => SignInAsync("owner@lanternridge.example");

    public Task<HttpClient> SignInAsOfficeAsync() => SignInAsync("desk@lanternridge.example");

    public Task<HttpClient> SignInAsInstallerAsync() => SignInAsync("crew@lanternridge.example");

    public async Task<HttpClient> SignInAsync(string email, string password = Password)
    {
        var client = Visitor();
        var answer = await client.SubmitAsync("/sign-in", new() { ["Input.Email"] = email, ["Input.Password"] = password });
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return client;
    }

    private void StartProgram()
    {
        _running = new Running(this);
        if (RealPort) _running.UseKestrel(0);
        if (RealPort) _running.StartServer();
        Address = RealPort ? _running.ClientOptions.BaseAddress : new Uri("http://localhost");
        _ = _running.Services;
    }

    private async Task OnServerAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(_server);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }

    private sealed class Running(OfficeApp office) : WebApplicationFactory<Program>
    {
        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            builder.UseSetting("DataFolder", office._folder);
            builder.UseSetting("Jobs:Off", "true");
            builder.UseSetting("Passwords:Iterations", "1000");
            builder.UseSetting("SignIn:TriesPerMinute", "1000");
            if (office._server is not null)
            {
                builder.UseSetting("Database:Provider", "Postgres");
                builder.UseSetting("Database:ConnectionString", new NpgsqlConnectionStringBuilder(office._server) { Database = office._database }.ConnectionString);
            }

            foreach (var (key, value) in office.Settings) builder.UseSetting(key, value);
            builder.ConfigureTestServices(services =>
            {
                services.Replace(ServiceDescriptor.Singleton<TimeProvider>(office.Clock));
                services.AddSingleton<SqlCount>();
                services.ConfigureDbContext<OfficeDb>((provider, options) => options.AddInterceptors(provider.GetRequiredService<SqlCount>()));
            });
        }
    }
}

public static class Forms
{
    /// <summary>Gets a page, fills its form as a browser without JavaScript would, and posts it.</summary>
    /// <param name="form">CSS selector of the form; by default the first posted form in main.</param>
    /// <param name="button">CSS selector of the button pressed inside the form, where its name or formaction matters.</param>
    public static async Task<HttpResponseMessage> SubmitAsync(
        this HttpClient client, string url, Dictionary<string, string> typed, string form = "main form[method=post]", string? button = null)
    {
        var page = await client.GetAsync(url);
        Assert.True(page.IsSuccessStatusCode, $"GET {url} answered {(int)page.StatusCode}");
        var document = await new HtmlParser().ParseDocumentAsync(await page.Content.ReadAsStringAsync());
        var found = document.QuerySelector(form) ?? throw new InvalidOperationException($"No form {form} on {url}.");
        var fields = new List<KeyValuePair<string, string>>();
        foreach (var control in found.QuerySelectorAll("input[name],select[name],textarea[name]"))
        {
            var name = control.GetAttribute("name")!;
            if (typed.ContainsKey(name)) continue;
            if (control.GetAttribute("type") is "checkbox" or "radio" && !control.HasAttribute("checked")) continue;
            if (control.GetAttribute("type") is "submit" or "file") continue;
            fields.Add(new(name, control switch
            {
                AngleSharp.Html.Dom.IHtmlSelectElement select => select.Value ?? "",
                AngleSharp.Html.Dom.IHtmlTextAreaElement area => area.Value,
                _ => control.GetAttribute("value") ?? "",
            }));
        }

        fields.AddRange(typed);
        var action = found.GetAttribute("action");
        if (button is not null)
        {
            var pressed = found.QuerySelector(button) ?? throw new InvalidOperationException($"No button {button} on {url}.");
            action = pressed.GetAttribute("formaction") ?? action;
            if (pressed.GetAttribute("name") is { } name) fields.Add(new(name, pressed.GetAttribute("value") ?? ""));
        }

        return await client.PostAsync(string.IsNullOrEmpty(action) ? url : action, new FormUrlEncodedContent(fields));
    }

    public static async Task<string> TextAsync(this HttpResponseMessage answer)
    {
        var document = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync());
        return document.Body?.TextContent ?? "";
    }

    public static async Task<string> TextAsync(this HttpClient client, string url) => await (await client.GetAsync(url)).TextAsync();
}
