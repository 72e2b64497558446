using System.IO.Compression;
using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;

namespace MitigationOffice.Web.Tests.Commands;

public sealed class BackupTests : IAsyncLifetime, IDisposable
{
    private readonly ProgramRun _program = new();

    /// <summary>An office with the invented price book in it, and one stored document.</summary>
    public async Task InitializeAsync()
    {
        Assert.Equal(0, (await _program.RunAsync("import", "prices", Path.Combine(AppContext.BaseDirectory, "demo-data", "prices.csv"))).Code);
        await _program.SqlAsync("""
            INSERT INTO "Documents" ("Title", "FileName", "ContentType", "Kind", "StoredAtUtc", "StoredBy", "Sha256", "SizeBytes", "Bytes", "Version")
            VALUES ('Three letters', '../abc "1".txt', 'text/plain', 0, '2026-03-02 15:00:00', 'a test',
                    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 3, x'616263', 0)
            """); // SHA-256 of "abc": FIPS 180-2, appendix B.1
    }

    public Task DisposeAsync() => Task.CompletedTask;

    public void Dispose() => _program.Dispose();

    [Fact]
    public async Task A_backup_restores_to_the_same_office_and_keeps_what_stood_there()
    {
        var before = await _program.SqlAsync("SELECT count(*) FROM \"PriceItems\"");
        Assert.Equal(0, (await _program.RunAsync("backup", _program["b.zip"])).Code);
        await _program.SqlAsync("UPDATE \"PriceItems\" SET \"Name\" = 'spoiled'");

        var restored = await _program.RunAsync("restore", _program["b.zip"]);

        Assert.True(restored.Code == 0, restored.Refused);
        Assert.Equal(0L, await _program.SqlAsync("SELECT count(*) FROM \"PriceItems\" WHERE \"Name\" = 'spoiled'"));
        Assert.Equal(before, await _program.SqlAsync("SELECT count(*) FROM \"PriceItems\""));
        Assert.Equal("wal", await _program.SqlAsync("PRAGMA journal_mode"));
        var verified = await _program.RunAsync("verify");
        Assert.True(verified.Code == 0, verified.Refused);
        Assert.Contains("1 documents read", verified.Said);
        var kept = Assert.Single(Directory.GetDirectories(Path.Combine(_program.Office, "backups"), "before-restore-*"));
        await using var old = new SqliteConnection($"Data Source={Path.Combine(kept, "office.db")};Pooling=False");
        await old.OpenAsync();
        await using var command = old.CreateCommand();
        command.CommandText = "SELECT count(*) FROM \"PriceItems\" WHERE \"Name\" = 'spoiled'";
        Assert.Equal(before, await command.ExecuteScalarAsync());
        Assert.Empty(Directory.GetFileSystemEntries(_program.Folder, "*.partial", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task A_backup_is_never_written_over_another_file()
    {
        await File.WriteAllTextAsync(_program["b.zip"], "precious");
        Assert.Contains("left as it is", (await _program.RunAsync("backup", _program["b.zip"])).Sentence);
        Assert.Equal("precious", await File.ReadAllTextAsync(_program["b.zip"]));
    }

    [Fact]
    public async Task A_cut_off_foreign_changed_or_newer_backup_is_refused_and_the_records_stay()
    {
        Assert.Equal(0, (await _program.RunAsync("backup", _program["b.zip"])).Code);
        var whole = await File.ReadAllBytesAsync(_program["b.zip"]);
        var live = await File.ReadAllBytesAsync(_program.Database);

        await File.WriteAllBytesAsync(_program["cut.zip"], whole[..(whole.Length / 2)]);
        Assert.Contains("damaged or not a whole backup", (await _program.RunAsync("restore", _program["cut.zip"])).Sentence);

        using (var foreign = ZipFile.Open(_program["foreign.zip"], ZipArchiveMode.Create)) foreign.CreateEntry("office.db");
        Assert.Contains("no manifest.json", (await _program.RunAsync("restore", _program["foreign.zip"])).Sentence);

        await WithManifestAsync("changed.zip", whole, m => m["files"]![0]!["sha256"] = new string('0', 64));
        Assert.Contains("office.db in the backup is not what was backed up", (await _program.RunAsync("restore", _program["changed.zip"])).Sentence);

        await WithManifestAsync("newer.zip", whole, m => m["program"] = "99.0.0.0");
        Assert.Contains("made by version 99.0.0.0", (await _program.RunAsync("restore", _program["newer.zip"])).Sentence);

        await WithManifestAsync("schema.zip", whole, m => m["schema"] = "29990101000000_Later");
        Assert.Contains("29990101000000_Later", (await _program.RunAsync("restore", _program["schema.zip"])).Sentence);

        await WithManifestAsync("climbs.zip", whole, m => m["files"]![0]!["name"] = "../office.db", "office.db", "../office.db");
        Assert.Equal(1, (await _program.RunAsync("restore", _program["climbs.zip"])).Code);

        Assert.Equal(live, await File.ReadAllBytesAsync(_program.Database));
        Assert.False(Directory.Exists(Path.Combine(_program.Office, "backups")));
        Assert.Empty(Directory.GetFileSystemEntries(_program.Folder, "*.partial", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task A_byte_turned_in_a_stored_document_is_found()
    {
        await _program.SqlAsync("UPDATE \"Documents\" SET \"Bytes\" = x'616264'");
        var verified = await _program.RunAsync("verify");
        Assert.Equal(1, verified.Code);
        Assert.Contains("Document 1 (Three letters) is not what was stored.", verified.Refused);
    }

    [Fact]
    public async Task A_row_that_refers_to_nothing_and_a_torn_file_are_found()
    {
        await _program.SqlAsync("PRAGMA foreign_keys = OFF; UPDATE \"Documents\" SET \"HouseId\" = 4711");
        var orphan = await _program.RunAsync("verify");
        Assert.Equal(1, orphan.Code);
        Assert.Contains("refers to one that is not there", orphan.Refused);

        await _program.SqlAsync("PRAGMA wal_checkpoint(TRUNCATE)");
        await using (var file = new FileStream(_program.Database, FileMode.Open)) file.SetLength(file.Length / 2);
        Assert.Equal(1, (await _program.RunAsync("verify")).Code);
    }

    [Fact]
    public async Task The_export_holds_every_table_and_document_and_nothing_that_opens_doors()
    {
        var exported = await _program.RunAsync("export", "all", _program["e.zip"]);
        Assert.True(exported.Code == 0, exported.Refused);
        using var zip = ZipFile.OpenRead(_program["e.zip"]);
        Assert.Equal("abc", Text(zip, "documents/000001--abc--1-.txt"));
        Assert.Contains("\"../abc \"\"1\"\".txt\"", Text(zip, "tables/Documents.csv"));
        Assert.Contains("\r\n", Text(zip, "tables/PriceItems.csv"));
        Assert.Contains("PIPE4,", Text(zip, "tables/PriceItems.csv"));
        foreach (var entry in zip.Entries.Where(e => e.FullName.StartsWith("tables/", StringComparison.Ordinal)))
            Assert.DoesNotMatch("PasswordHash|TokenHash|SecurityStamp|Mime", Text(zip, entry.FullName).Split("\r\n")[0]);
    }

    [Fact]
    public async Task On_a_server_database_backup_and_restore_name_the_server_s_own_tools()
    {
        var server = new Dictionary<string, string> { ["Database__Provider"] = "Postgres", ["Database__ConnectionString"] = "Host=127.0.0.1;Port=1" };
        Assert.Contains("pg_dump", (await _program.RunAloneAsync(server, "backup", _program["b.zip"])).Sentence);
        Assert.Contains("pg_restore", (await _program.RunAloneAsync(server, "restore", _program["b.zip"])).Sentence);
    }

    private async Task WithManifestAsync(string name, byte[] whole, Action<JsonNode> change, string? from = null, string? to = null)
    {
        await File.WriteAllBytesAsync(_program[name], whole);
        using var zip = ZipFile.Open(_program[name], ZipArchiveMode.Update);
        var manifest = JsonNode.Parse(Text(zip, "manifest.json"))!;
        change(manifest);
        zip.GetEntry("manifest.json")!.Delete();
        await using (var text = new StreamWriter(zip.CreateEntry("manifest.json").Open())) await text.WriteAsync(manifest.ToJsonString());
        if (from is null) return;
        using var bytes = new MemoryStream();
        await using (var old = zip.GetEntry(from)!.Open()) await old.CopyToAsync(bytes);
        zip.GetEntry(from)!.Delete();
        await using var moved = zip.CreateEntry(to!).Open();
        await moved.WriteAsync(bytes.ToArray());
    }

    private static string Text(ZipArchive zip, string name)
    {
        using var reader = new StreamReader(zip.GetEntry(name)?.Open() ?? throw new InvalidOperationException($"No {name}, only {string.Join(' ', zip.Entries.Select(e => e.FullName))}"));
        return reader.ReadToEnd();
    }
}
