using System.IO.Compression;
using System.Reflection;
using System.Security.Cryptography;
using System.Text.Json;

namespace MitigationOffice.Web.Commands;

/// <summary>What a backup holds, so that a damaged or foreign one is refused before anything is touched.</summary>
public sealed record BackupManifest(int Layout, string Program, string Schema, DateTime MadeAtUtc, IReadOnlyList<BackedUpFile> Files)
{
    public const string Name = "manifest.json";
    public const string Database = "office.db";
    public const int ThisLayout = 1;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static Version ThisProgram => Assembly.GetExecutingAssembly().GetName().Version!;

    public async Task WriteAsync(ZipArchive zip, CancellationToken cancel)
    {
        await using var stream = await zip.CreateEntry(Name).OpenAsync(cancel);
        await JsonSerializer.SerializeAsync(stream, this, Json, cancel);
    }

    public static async Task<BackupManifest> ReadAsync(ZipArchive zip, CancellationToken cancel)
    {
        var entry = zip.GetEntry(Name) ?? throw new InvalidOperationException("This file is not a backup of this program: it holds no manifest.json.");
        await using var stream = await entry.OpenAsync(cancel);
        var manifest = await JsonSerializer.DeserializeAsync<BackupManifest>(stream, Json, cancel);
        return manifest is { Files: not null, Program: not null, Schema: not null } ? manifest : throw new InvalidOperationException("The backup's manifest.json is not whole.");
    }

    /// <summary>Refuses a backup this program cannot know how to read.</summary>
    public void Demand(IReadOnlyCollection<string> knownSchemas)
    {
        if (Layout > ThisLayout || !Version.TryParse(Program, out var made) || made > ThisProgram || !knownSchemas.Contains(Schema))
            throw new InvalidOperationException($"This backup was made by version {Program} of the program ({Schema}); this is version {ThisProgram}. Restore it with that version or a later one.");
    }

    /// <summary>Only what a backup puts into a folder: the database, and files directly in keys and mail.</summary>
    public static bool MayHold(string name) =>
        name == Database || (name.Split('/') is [("keys" or "mail"), { Length: > 0 } file] && file is not ("." or "..") && file.IndexOfAny(['\\', ':', '\0']) < 0);

    /// <summary>Copies and hashes in one pass.</summary>
    public static async Task<BackedUpFile> CopyAsync(string name, Stream from, Stream to, CancellationToken cancel)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var (buffer, bytes) = (new byte[81920], 0L);
        for (int read; (read = await from.ReadAsync(buffer, cancel)) > 0; bytes += read)
        {
            hash.AppendData(buffer, 0, read);
            await to.WriteAsync(buffer.AsMemory(0, read), cancel);
        }

        return new(name, bytes, Convert.ToHexStringLower(hash.GetHashAndReset()));
    }
}

public sealed record BackedUpFile(string Name, long Bytes, string Sha256);
