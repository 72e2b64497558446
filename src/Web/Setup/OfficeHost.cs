using System.Globalization;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup.Demo;

namespace MitigationOffice.Web.Setup;

/// <summary>Puts the program together; the details stand in the other files of this folder.</summary>
public static class OfficeHost
{
    public static WebApplication Build(string[] args, string? data, string role, bool demo)
    {
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.InvariantCulture;
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ContentRootPath = ContentRoot() });
        builder.Configuration.AddEnvironmentVariables();
        var folder = DataFolder.Choose(data, builder.Configuration["DataFolder"], demo);
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
        if (builder.Configuration["urls"] is null && builder.Configuration["http_ports"] is null) builder.WebHost.UseUrls("http://localhost:5080");
        // A command answers with its own sentence instead.
        var told = role == "none" ? LogLevel.None : LogLevel.Warning;
        builder.Logging.AddFilter("Microsoft.EntityFrameworkCore", told).AddFilter("Microsoft.AspNetCore", told).AddFilter("Hangfire", told)
            .AddFilter("Microsoft.Hosting.Lifetime", told).AddFilter("Microsoft.AspNetCore.Antiforgery", role == "none" ? LogLevel.None : LogLevel.Error);
        builder.Services.AddSingleton(folder).AddSingleton<FolderLock>().AddSingleton(TimeProvider.System);
        builder.Services.AddOfficeDatabase(builder.Configuration, folder);
        builder.Services.AddDataProtection().SetApplicationName("mitigation-office").PersistKeysToFileSystem(Directory.CreateDirectory(folder.Keys));
        builder.Services.AddSignIn(builder.Configuration);
        builder.Services.AddProxies(builder.Configuration);
        builder.Services.AddOfficePages();
        builder.Services.AddOffer(builder.Configuration);
        builder.Services.AddOfficeMail(builder.Configuration, folder);
        builder.Services.AddOfficeJobs(builder.Configuration, role);
        var app = builder.Build();
        app.UseOffice(role);
        return app;
    }

    /// <summary>Where pages' static files lie: beside the program when it was published, in the project when run from source.</summary>
    private static string ContentRoot() =>
        Directory.Exists(Path.Combine(AppContext.BaseDirectory, "wwwroot")) || !Directory.Exists("wwwroot")
            ? AppContext.BaseDirectory
            : Directory.GetCurrentDirectory();

    /// <summary>Takes the folder, migrates, and loads the demo company where asked.</summary>
    public static async Task PrepareAsync(this WebApplication app, bool demo, CancellationToken cancel)
    {
        // Asked of the settings: a second program must be turned away before it has built the model of the records.
        if (DatabaseSetup.OnSqlite(app.Configuration)) app.Services.GetRequiredService<FolderLock>().Take(app.Services.GetRequiredService<DataFolder>());
        await using var scope = app.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
        await MigrateRecords.RunAsync(db, app.Services.GetRequiredService<DataFolder>(), app.Logger, cancel);
        await FirstRecords.EnsureAsync(db, cancel);
        if (demo) await LoadDemo.RunAsync(scope.ServiceProvider, cancel);
    }
}
