namespace MitigationOffice.Web.Setup;

/// <summary>The one folder that holds the office: database, keys, mail written as files, backups.</summary>
public sealed class DataFolder(string path)
{
    public string FullPath { get; } = Path.GetFullPath(path);
    public string Database => Path.Combine(FullPath, "office.db");
    public string Keys => Path.Combine(FullPath, "keys");
    public string Mail => Path.Combine(FullPath, "mail");
    public string Backups => Path.Combine(FullPath, "backups");
    public string Lock => Path.Combine(FullPath, "office.lock");

    public static DataFolder Choose(string? option, string? configured, bool demo)
    {
        var chosen = option ?? configured ?? Path.Combine(
            Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create),
            demo ? "mitigation-office-demo" : "mitigation-office");
        var folder = new DataFolder(chosen);
        Directory.CreateDirectory(folder.FullPath);
        return folder;
    }
}

/// <summary>Held while the program runs, so that a second one on the same folder stops with words instead of doing
/// everything twice.</summary>
public sealed class FolderLock : IDisposable
{
    private FileStream? _held;

    public bool Held => _held is not null;

    public void Take(DataFolder folder)
    {
        if (Held) return;
        try
        {
            _held = new FileStream(folder.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException)
        {
            throw new InvalidOperationException(
                $"The office is already running on {folder.FullPath}. Use the one that is open, or start with --data and another folder.");
        }
    }

    public void Dispose() => _held?.Dispose();
}
