using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A photo of a job as the sheets show it.</summary>
public sealed record PhotoRow(int Id, int HouseId, int JobId, int DocumentId, string Caption, bool InPacket, DateTime AtUtc, string By, int WidthPx, int HeightPx)
{
    /// <summary>What a reader who cannot see it is told.</summary>
    public string Alt => Caption.Length > 0 ? Caption : "Photo without a caption";
    public string Small => string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/work/photos?handler=Small&photo={Id}&job={JobId}");
    public string Whole => string.Create(CultureInfo.InvariantCulture, $"/houses/{HouseId}/papers/{DocumentId}?show=1");

    public static Task<List<PhotoRow>> OfJobAsync(OfficeDb db, int jobId) => db.JobPhotos.Where(p => p.JobId == jobId).OrderBy(p => p.Id)
        .Select(p => new PhotoRow(p.Id, p.HouseId, p.JobId, p.DocumentId, p.Caption, p.InPacket, p.TakenInAtUtc, p.TakenInBy, p.WidthPx, p.HeightPx)).ToListAsync();
}
