namespace MitigationOffice.Web.Commands;

/// <summary>Files that only the person who runs the program may read: a backup holds names, addresses and keys.</summary>
public static class PrivateFiles
{
    public static FileStream Create(string path)
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.ReadWrite };
        if (!OperatingSystem.IsWindows()) options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        return new FileStream(path, options);
    }

    public static void CreateFolder(string path)
    {
        if (OperatingSystem.IsWindows()) Directory.CreateDirectory(path);
        else Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    /// <summary>Makes a file in full beside its place, then gives it its name: never half a file, never over another.</summary>
    public static async Task<string> MakeAsync(string wanted, Func<string, Task> makeIn)
    {
        var path = Path.GetFullPath(wanted);
        if (Path.Exists(path)) throw new InvalidOperationException($"{path} is there already and is left as it is; choose another name.");
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var working = $"{path}.{Path.GetRandomFileName()}.partial";
        CreateFolder(working);
        try
        {
            await makeIn(working);
            File.Move(Path.Combine(working, Finished), path, overwrite: false);
            return path;
        }
        finally
        {
            Directory.Delete(working, recursive: true);
        }
    }

    /// <summary>The name under which the whole file stands in its working folder.</summary>
    public const string Finished = "finished";
}
