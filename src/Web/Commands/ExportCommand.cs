using System.CommandLine;
using System.Data.Common;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.StateReports;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

/// <summary>Everything the office knows in files any program reads: a CSV a table, and the stored documents as they are.</summary>
public static class ExportCommand
{
    /// <summary>What opens doors stays out: password and link hashes, sign-in stamps, and letters, for the private links in them.</summary>
    private static readonly string[] LeftOut = ["PasswordHash", "SecurityStamp", "ConcurrencyStamp", "TokenHash", "Mime", "Bytes"];

    private static readonly string[] TablesLeftOut = ["AspNetUserTokens", "AspNetUserLogins", "AspNetUserClaims", "AspNetUserPasskeys", "Submissions"];

    public static Command Make(string[] args, Option<string?> data)
    {
        var export = new Command("export", "Write records as files that other programs read.");
        var all = new Command("all", "Every table as CSV and every document as a file, in one new .zip.");
        var to = new Argument<string>("out") { Description = "The file to make; one that exists is never overwritten." };
        var show = new Option<bool>("--with-private") { Description = "Addresses, owners and papers too of houses whose state keeps them private, for moving the office's own records." };
        all.Arguments.Add(to);
        all.Options.Add(show);
        all.SetAction((parse, cancel) => CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, parse.GetValue(data), "none", demo: false);
            await using var scope = app.Services.CreateAsyncScope();
            var db = scope.ServiceProvider.GetRequiredService<OfficeDb>();
            if (db.Database.IsSqlite()) RecordsFile.Demand(app.Configuration, app.Services.GetRequiredService<DataFolder>(), "");
            var hidden = await PrivateHouses.ReadAsync(db, cancel);
            var shown = parse.GetValue(show);
            if (hidden is not null)
                await Console.Error.WriteLineAsync(shown ? $"The file holds the addresses of {hidden.Ids.Count} houses whose state keeps them private: give it to nobody." : $"The addresses, owners and papers of {hidden.Ids.Count} houses are left out, for their state keeps them private. To move your own records make the file with --with-private.");
            await Console.Out.WriteLineAsync(await PrivateFiles.MakeAsync(parse.GetValue(to)!, working => MakeAsync(db, working, shown ? null : hidden, cancel)));
        }));
        export.Subcommands.Add(all);
        return export;
    }

    /// <param name="working">The folder that the finished file is made in.</param>
    /// <param name="hidden">Houses to leave out; null: none.</param>
    public static async Task MakeAsync(OfficeDb db, string working, PrivateHouses? hidden, CancellationToken cancel)
    {
        await using var stream = PrivateFiles.Create(Path.Combine(working, PrivateFiles.Finished));
        await using var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        await db.Database.OpenConnectionAsync(cancel);
        // One moment for all tables, without holding up who is writing.
        await db.Database.ExecuteSqlRawAsync(db.Database.IsSqlite() ? "BEGIN" : "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY", cancel);
        foreach (var table in db.Model.GetRelationalModel().Tables.Where(t => !TablesLeftOut.Contains(t.Name)).OrderBy(t => t.Name, StringComparer.Ordinal))
            await WriteTableAsync(db.Database.GetDbConnection(), zip, table, hidden, cancel);
        await WriteDocumentsAsync(db, zip, hidden, cancel);
        await db.Database.ExecuteSqlRawAsync("COMMIT", cancel);
        await db.Database.CloseConnectionAsync();
    }

    private static async Task WriteTableAsync(DbConnection connection, ZipArchive zip, ITable table, PrivateHouses? hidden, CancellationToken cancel)
    {
        var columns = table.Columns.Where(c => !LeftOut.Contains(c.Name)).ToList();
        await using var command = connection.CreateCommand();
        var order = string.Join(", ", (table.PrimaryKey?.Columns ?? []).Select(c => Quoted(c.Name)));
        // Names come from the program's own model, never from outside.
        command.CommandText = $"SELECT {string.Join(", ", columns.Select(c => Quoted(c.Name)))} FROM {Quoted(table.Name)}{(order.Length > 0 ? " ORDER BY " + order : "")}";
        await using var reader = await command.ExecuteReaderAsync(cancel);
        await using var stream = await zip.CreateEntry($"tables/{table.Name}.csv").OpenAsync(cancel);
        await using var text = new StreamWriter(stream, new UTF8Encoding(false));
        await text.WriteAsync(Csv.Write([.. columns.Select(c => c.Name)], []));
        var (id, told, ids) = Telling(table, columns, hidden);
        while (await reader.ReadAsync(cancel))
        {
            var cells = columns.Select((c, i) => Cell(reader.GetValue(i), c)).Select(cell => hidden?.Hide(cell) ?? cell).ToList();
            if (told >= 0 && int.TryParse(cells[id], CultureInfo.InvariantCulture, out var whose) && ids.Contains(whose)) cells[told] = PrivateHouses.Instead;
            await text.WriteAsync(Csv.Write(cells, []));
        }
    }

    /// <summary>What changed and what was reported may tell a name or a street that is no longer on record: by whose it is, such a cell is hidden whole.</summary>
    private static (int Id, int Told, IReadOnlySet<int> Ids) Telling(ITable table, List<IColumn> columns, PrivateHouses? hidden)
    {
        int At(string name) => columns.FindIndex(c => c.Name == name);
        return (hidden, table.Name) switch
        {
            ({ } houses, "Audit") => (At("HouseId"), At("Changes"), houses.Ids),
            ({ } houses, "ReportEntries") => (At("InstalledSystemId"), At("RowJson"), houses.SystemIds),
            _ => (-1, -1, new HashSet<int>()),
        };
    }

    private static async Task WriteDocumentsAsync(OfficeDb db, ZipArchive zip, PrivateHouses? hidden, CancellationToken cancel)
    {
        await foreach (var document in db.Documents.AsNoTracking().OrderBy(d => d.Id).Select(d => new { d.Id, d.HouseId, d.Kind, d.FileName, d.Bytes }).AsAsyncEnumerable().WithCancellation(cancel))
        {
            if (hidden is not null && (document.Kind == PaperKind.StateReport || (document.HouseId is { } house && hidden.Ids.Contains(house)))) continue;
            await using var stream = await zip.CreateEntry(DocumentName(document.Id, document.FileName)).OpenAsync(cancel);
            await stream.WriteAsync(document.Bytes, cancel);
        }
    }

    /// <summary>The number first, then the file's own name with anything a file system could trip over made a dash.</summary>
    private static string DocumentName(int id, string fileName) =>
        string.Create(CultureInfo.InvariantCulture, $"documents/{id:000000}-{new string([.. fileName.Select(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_' ? c : '-')]).TrimStart('.')}");

    private static string Quoted(string name) => $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static string Cell(object value, IColumn column) => value switch
    {
        DBNull => "",
        byte[] bytes => Convert.ToBase64String(bytes),
        bool yes => yes ? "yes" : "no",
        DateTime at => at.ToString("yyyy-MM-dd HH:mm:ss.FFFFFF", CultureInfo.InvariantCulture),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        long or int or short => Whole(Convert.ToInt64(value, CultureInfo.InvariantCulture), Kind(column)),
        _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
    };

    private static string Whole(long number, Type kind)
    {
        if (kind == typeof(bool)) return number != 0 ? "yes" : "no";
        if (kind.IsEnum && Enum.GetName(kind, Enum.ToObject(kind, number)) is { } name) return name;
        return number.ToString(CultureInfo.InvariantCulture);
    }

    private static Type Kind(IColumn column)
    {
        var kind = column.PropertyMappings[0].Property.ClrType;
        return Nullable.GetUnderlyingType(kind) ?? kind;
    }
}
