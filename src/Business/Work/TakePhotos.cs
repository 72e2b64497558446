using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Documents.Pictures;

namespace MitigationOffice.Business.Work;

/// <summary>Takes photos of a job in: each drawn anew, upright, smaller, without place, date and camera. The same photo sent twice is one photo.</summary>
public static class TakePhotos
{
    /// <summary>Larger than what a tablet's camera writes.</summary>
    public const int MostBytes = ReceivedFile.MostBytes;
    public const int MostAtOnce = 12;
    public const int MostOfAJob = 200;
    public const int CaptionLength = 300;

    /// <summary>Enough to read a serial number on the fan's plate.</summary>
    private const int LongestSidePx = 2000;
    private const int SmallSidePx = 360;

    /// <param name="Name">As the device calls it.</param>
    /// <param name="SizeBytes">Read only where it may be taken.</param>
    public sealed record Sent(string Name, long SizeBytes, Func<Task<byte[]>> ReadAsync);

    /// <param name="Saved">The names of those that are on the job now.</param>
    /// <param name="Refused">For each that is not, words that name it and say why.</param>
    public sealed record Outcome(IReadOnlyList<string> Saved, IReadOnlyList<string> Refused);

    /// <summary>Takes what can be taken, each by itself.</summary>
    public static async Task<Outcome> RunAsync(OfficeDb db, Job job, IReadOnlyList<Sent> sent, string caption, DateTime nowUtc, string by)
    {
        if (sent.Count > MostAtOnce) return new([], [$"These are {sent.Count} photos; {MostAtOnce} are taken at once. Send them in parts."]);
        if (await db.JobPhotos.CountAsync(p => p.JobId == job.Id) + sent.Count > MostOfAJob) return new([], [$"A job holds {MostOfAJob} photos at most. Take some off first."]);
        var (saved, refused) = (new List<string>(), new List<string>());
        foreach (var file in sent)
        {
            if (await TakeAsync(db, job, file, caption, nowUtc, by) is { } problem) refused.Add($"{Named(file.Name)}: {problem}");
            else saved.Add(Named(file.Name));
        }

        return new(saved, refused);
    }

    private static async Task<string?> TakeAsync(OfficeDb db, Job job, Sent file, string caption, DateTime nowUtc, string by)
    {
        if (file.SizeBytes > MostBytes) return $"This photo is {ReceivedFile.Size(file.SizeBytes)}; {ReceivedFile.Size(MostBytes)} are taken. Set the camera to fewer pixels, or send a smaller copy.";
        var clean = CleanPicture.Of(await file.ReadAsync(), LongestSidePx);
        if (clean.Problem is { } problem) return problem;
        var document = StoredDocument.Of(clean.Bytes, PaperKind.Photo, $"Photo of job {job.Number}", ReceivedFile.SafeName(file.Name, clean.ContentType == "image/png" ? ".png" : ".jpg"), clean.ContentType, job.HouseId, nowUtc, by);
        await db.WriteAsync(async () =>
        {
            if (await db.JobPhotos.AnyAsync(p => p.JobId == job.Id && db.Documents.Any(d => d.Id == p.DocumentId && d.Sha256 == document.Sha256))) return;
            db.Documents.Add(document);
            await db.SaveChangesAsync();
            db.JobPhotos.Add(new JobPhoto
            {
                HouseId = job.HouseId, JobId = job.Id, DocumentId = document.Id, Caption = caption, TakenInAtUtc = nowUtc, TakenInBy = by,
                WidthPx = clean.WidthPx, HeightPx = clean.HeightPx, Small = CleanPicture.Of(clean.Bytes, SmallSidePx).Bytes,
            });
            await db.SaveChangesAsync();
        });
        return null;
    }

    private static string Named(string name) => ReceivedFile.SafeName(name, Path.GetExtension(name) is { Length: > 1 and <= 6 } ending && ending.Skip(1).All(char.IsAsciiLetterOrDigit) ? ending : "");
}
