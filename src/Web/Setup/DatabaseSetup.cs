using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup;

public static class DatabaseSetup
{
    public static void AddOfficeDatabase(this IServiceCollection services, IConfiguration configuration, DataFolder folder)
    {
        services.AddScoped<Actor>();
        services.AddDbContext<OfficeDb>(options => Choose(options, configuration, folder));
    }

    public static bool OnSqlite(IConfiguration configuration) => Provider(configuration).Equals("Sqlite", StringComparison.OrdinalIgnoreCase);

    public static void Choose(DbContextOptionsBuilder options, IConfiguration configuration, DataFolder folder)
    {
        var provider = Provider(configuration);
        if (provider.Equals("Postgres", StringComparison.OrdinalIgnoreCase))
            options.UseNpgsql(
                configuration["Database:ConnectionString"] ?? throw new InvalidOperationException("Database:Provider is Postgres; set Database__ConnectionString too."),
                o => o.MigrationsAssembly("MitigationOffice.Migrations.Postgres").UseQuerySplittingBehavior(QuerySplittingBehavior.SplitQuery));
        else if (OnSqlite(configuration))
            options.UseSqlite(
                $"Data Source={folder.Database};Cache=Private;Foreign Keys=True;Default Timeout=10",
                o => o.MigrationsAssembly("MitigationOffice.Migrations.Sqlite").UseQuerySplittingBehavior(QuerySplittingBehavior.SplitQuery)).AddInterceptors(new FullSync());
        else throw new InvalidOperationException($"Database:Provider must be Sqlite or Postgres; it is {provider}.");
    }

    private static string Provider(IConfiguration configuration) => configuration["Database:Provider"] ?? "Sqlite";

    /// <summary>What the customer signed must survive a pulled plug: every commit reaches the disk.</summary>
    private sealed class FullSync : DbConnectionInterceptor
    {
        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData) => Set(connection);

        public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
        {
            Set(connection);
            return Task.CompletedTask;
        }

        private static void Set(DbConnection connection)
        {
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA synchronous=FULL; PRAGMA busy_timeout=5000;";
            command.ExecuteNonQuery();
        }
    }
}
