using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Migrations.Sqlite;

/// <summary>Lets the migration tool make the model without the web program.</summary>
public sealed class OfficeDbFactory : IDesignTimeDbContextFactory<OfficeDb>
{
    public OfficeDb CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<OfficeDb>();
        options.UseSqlite(args.Length > 0 ? args[0] : "Data Source=design-time.db", o => o.MigrationsAssembly(typeof(OfficeDbFactory).Assembly.GetName().Name));
        return new OfficeDb(options.Options, TimeProvider.System, new Actor());
    }
}
