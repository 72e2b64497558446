using System.Globalization;

namespace MitigationOffice.Business.Messages;

/// <summary>Mail as files, where no server is set: each a whole message that any mail program opens.</summary>
public sealed class MailFolder(string path) : IMailDoor
{
    public string FullPath { get; } = path;

    public async Task<DoorAnswer> SendAsync(int id, string subject, byte[] mime, CancellationToken cancel)
    {
        var name = NameOf(id, subject);
        try
        {
            Directory.CreateDirectory(FullPath);
            var partial = Path.Combine(FullPath, name + ".partial");
            await File.WriteAllBytesAsync(partial, mime, CancellationToken.None);
            File.Move(partial, Path.Combine(FullPath, name), overwrite: true);
            return new DoorAnswer(DoorSaid.Taken, $"Written to the file {name}");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new DoorAnswer(DoorSaid.Later, $"The file could not be written: {e.Message}") { StopHere = true };
        }
    }

    /// <summary>The same message has the same name, so that writing it again makes no second file.</summary>
    public static string NameOf(int id, string subject)
    {
        var words = new string([.. subject.ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-').Take(50)]);
        return string.Create(CultureInfo.InvariantCulture, $"{id:000000}-{string.Join('-', words.Split('-', StringSplitOptions.RemoveEmptyEntries))}.eml");
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
