using System.Globalization;
using Microsoft.Extensions.Configuration;

namespace MitigationOffice.Endurance;

/// <summary>What a jobs process is told when it is started.</summary>
/// <param name="Server">Connection string of a PostgreSQL database; empty: SQLite in the folder.</param>
public sealed record PumpOrders(string Folder, string Server, int SmtpPort)
{
    public string[] Write() => ["pump", Folder, Server, SmtpPort.ToString(CultureInfo.InvariantCulture)];

    public static PumpOrders Read(string[] args) => new(args[1], args[2], int.Parse(args[3], CultureInfo.InvariantCulture));

    /// <summary>The settings that the program itself would read.</summary>
    public IConfiguration Settings()
    {
        var settings = new Dictionary<string, string?>
        {
            ["Mail:Host"] = "127.0.0.1",
            ["Mail:Port"] = SmtpPort.ToString(CultureInfo.InvariantCulture),
            ["Mail:DailyCap"] = "1000000",
            ["Mail:AnswerTimeout"] = "00:00:20",
            ["PublicAddress"] = "https://office.lanternridge.example",
        };
        if (Server.Length > 0) (settings["Database:Provider"], settings["Database:ConnectionString"]) = ("Postgres", Server);
        return new ConfigurationBuilder().AddInMemoryCollection(settings).Build();
    }
}
