using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Migrations.Postgres;

/// <summary>Lets the migration tool make the model without the web program.</summary>
public sealed class OfficeDbFactory : IDesignTimeDbContextFactory<OfficeDb>
{
    public OfficeDb CreateDbContext(string[] args)
    {
        var options = new DbContextOptionsBuilder<OfficeDb>();
        options.UseNpgsql(args.Length > 0 ? args[0] : "Host=localhost;Database=design_time", o => o.MigrationsAssembly(typeof(OfficeDbFactory).Assembly.GetName().Name));
        return new OfficeDb(options.Options, TimeProvider.System, new Actor());
    }
}
