using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Documents.Drawing;

namespace MitigationOffice.Business.Quotes.Papers;

/// <summary>The house with a quoted design in it, from what was stored when the quote went out.</summary>
public static class DrawQuoted
{
    /// <summary>Null where the design is gone.</summary>
    public static async Task<HouseFacts?> OfAsync(OfficeDb db, int designId)
    {
        if (await db.FirstToReadAsync(db.Designs.Where(d => d.Id == designId)) is not { } design) return null;
        var house = await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == design.HouseId);
        return SectionOfDesign.Of(design, ComputeDesign.Stored(design), house, house.Street, UnitSystem.US);
    }
}
