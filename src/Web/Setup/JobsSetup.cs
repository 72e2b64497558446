using Hangfire;
using Hangfire.InMemory;
using Hangfire.PostgreSql;
using MitigationOffice.Business.FollowUp;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Messages.Returned;
using MitigationOffice.Business.Messages.Sender;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Jobs;

namespace MitigationOffice.Web.Setup;

/// <summary>Mail and the clock. The scheduler is clock and threads only: what is to be done stands in our own tables.</summary>
public static class JobsSetup
{
    public static void AddOfficeMail(this IServiceCollection services, IConfiguration configuration, DataFolder folder)
    {
        var mail = configuration.GetSection("Mail").Get<MailSettings>() ?? new MailSettings();
        var address = configuration["PublicAddress"] ?? OnThisMachine(configuration["urls"]) ?? "http://localhost:5080";
        if (!Uri.TryCreate(address.TrimEnd('/') + "/", UriKind.Absolute, out var publicAddress) || publicAddress.Scheme is not ("http" or "https"))
            throw new InvalidOperationException($"PublicAddress must be an address like https://office.example; it is {address}.");
        services.AddSingleton(mail with { PublicAddress = publicAddress });
        services.AddSingleton(new MailFolder(folder.Mail));
        services.AddSingleton<ClockWatch>();
        services.AddSingleton(configuration.GetSection("Mailbox").Get<MailboxSettings>() ?? new MailboxSettings());
        services.AddSingleton(new TextRecords(configuration["Dns:Server"] ?? "", TimeSpan.FromSeconds(configuration.GetValue("Dns:Seconds", TextRecords.UsualPatience.TotalSeconds))));
        services.AddSingleton<LookUpSender>();
        services.AddScoped<SendOutbox>();
        services.AddScoped<PollReturns>();
        services.AddSingleton<IOfficeDays, ReportDays>();
        services.AddSingleton<IClaimCheck, CheckReminders>();
        services.AddSingleton<IClaimCheck, CheckNudges>();
        services.AddScoped<QueueDueReminders>();
        services.AddScoped<NudgeQuotes>();
    }

    /// <summary>The address it listens on, where links to it work as they stand: on this machine, at a port that was chosen. Else null.</summary>
    private static string? OnThisMachine(string? urls) => (urls ?? "").Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
        .FirstOrDefault(u => Uri.TryCreate(u, UriKind.Absolute, out var at) && at is { IsLoopback: true, Port: > 0 });

    public static void AddOfficeJobs(this IServiceCollection services, IConfiguration configuration, string role)
    {
        if (role is "web" or "all" && !configuration.GetValue("Jobs:Off", false)) services.AddHostedService<WarmUp>();
        if (!Scheduled(configuration, role)) return;
        services.AddHangfire(hangfire => Store(hangfire.UseSimpleAssemblyNameTypeSerializer().UseRecommendedSerializerSettings(), configuration));
        if (role == "web") return;
        services.AddHostedService<StartJobs>();
        services.AddHangfireServer(server => (server.WorkerCount, server.ServerTimeout) = (4, TimeSpan.FromMinutes(2)));
    }

    public static void MapOfficeJobs(this WebApplication app, string role)
    {
        if (!Scheduled(app.Configuration, role)) return;
        // Behind the office's own sign-in; the default "same machine only" would let everyone in through a proxy.
        app.MapHangfireDashboard("/jobs", new DashboardOptions { Authorization = [], DashboardTitle = "Jobs", DisplayStorageConnectionString = false })
            .RequireAuthorization(SignInSetup.OwnerOnly);
    }

    /// <summary>Commands have no jobs; a web process has them only where they are shared through the server database.</summary>
    private static bool Scheduled(IConfiguration configuration, string role) =>
        !configuration.GetValue("Jobs:Off", false) && role switch { "jobs" or "all" => true, "web" => OnServer(configuration), _ => false };

    private static bool OnServer(IConfiguration configuration) =>
        string.Equals(configuration["Database:Provider"], "Postgres", StringComparison.OrdinalIgnoreCase);

    private static void Store(IGlobalConfiguration hangfire, IConfiguration configuration)
    {
        if (OnServer(configuration))
            hangfire.UsePostgreSqlStorage(
                o => o.UseNpgsqlConnection(configuration["Database:ConnectionString"]),
                new PostgreSqlStorageOptions { SchemaName = "hangfire", UseSlidingInvisibilityTimeout = true, AllowDegradedModeWithoutStorage = false });
        else hangfire.UseInMemoryStorage(new InMemoryStorageOptions { MaxExpirationTime = TimeSpan.FromHours(6) });
    }
}
