using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Business.Design;

/// <summary>Reads designs with all that is drawn in them: pieces and branches.</summary>
public static class ReadDesigns
{
    public static IQueryable<SuctionDesign> WithRoute(this IQueryable<SuctionDesign> designs) => designs.Include(d => d.Pieces).Include(d => d.Branches);

    /// <summary>The first of the designs, to look at, in two statements; the stored report comes over once a branch and not once a piece.</summary>
    public static async Task<SuctionDesign?> FirstToReadAsync(this OfficeDb db, IQueryable<SuctionDesign> designs)
    {
        var design = await designs.AsNoTracking().Include(d => d.Branches).AsSingleQuery().FirstOrDefaultAsync();
        if (design is not null) design.Pieces = await db.Set<RoutePiece>().AsNoTracking().Where(p => p.SuctionDesignId == design.Id).ToListAsync();
        return design;
    }
}
