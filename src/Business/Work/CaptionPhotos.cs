using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Work;

/// <summary>Writes what stands under a job's photos, which go into the packet, and takes photos off the job. Only what was changed is
/// written, so two people can caption different photos at the same time.</summary>
public static class CaptionPhotos
{
    /// <summary>What one packet can show without growing long.</summary>
    public const int MostInPacket = 6;

    public sealed record Change(int PhotoId, string CaptionWas, string Caption, bool InPacketWas, bool InPacket, bool TakenOff);

    /// <summary>The refusals by photo, 0 for all of them; nothing is saved where there is one.</summary>
    public static Task<IReadOnlyList<(int PhotoId, string Words)>> RunAsync(OfficeDb db, int jobId, IReadOnlyList<Change> changes) => db.WriteAsync<IReadOnlyList<(int, string)>>(async () =>
    {
        var refused = new List<(int, string)>();
        var photos = await db.JobPhotos.Where(p => p.JobId == jobId).ToListAsync();
        foreach (var change in changes)
        {
            if (photos.Find(p => p.Id == change.PhotoId) is not { } photo) continue;
            if (change.Caption != change.CaptionWas)
            {
                if (photo.Caption != change.CaptionWas && photo.Caption != change.Caption)
                    refused.Add((photo.Id, $"Somebody else wrote “{photo.Caption}” meanwhile. Yours still stands in the field; save again to put it in place of theirs."));
                photo.Caption = change.Caption;
            }

            if (change.InPacket != change.InPacketWas) photo.InPacket = change.InPacket;
            if (change.TakenOff) db.Remove(photo);
        }

        if (photos.Count(p => p.InPacket && db.Entry(p).State != EntityState.Deleted) is > MostInPacket and var chosen)
            refused.Add((0, $"{chosen} photos are chosen for the packet; it shows {MostInPacket}. Untick some."));
        if (refused.Count > 0) db.ChangeTracker.Clear();
        else await db.SaveChangesAsync();
        return refused;
    });
}
