using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Siting;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>A mouth drawn and judged as it is typed; nothing is stored.</summary>
public sealed record SitingLook(SitingReport? Report, string? Refusal, UnitSystem Units)
{
    public int Failing => Report?.Findings.Count(f => f is { Outcome: SitingOutcome.Failed, IsAdvisory: false }) ?? 0;

    public int Unknown => Report?.Findings.Count(f => f is { Outcome: SitingOutcome.NotEnoughData, IsAdvisory: false }) ?? 0;

    public static async Task<SitingLook> OfAsync(OfficeDb db, SuctionDesign design, ModelStateDictionary problems, UnitSystem units)
    {
        var house = await db.Houses.AsNoTracking().Include(h => h.Areas).AsSingleQuery().SingleAsync(h => h.Id == design.HouseId);
        var first = problems.SelectMany(p => p.Value!.Errors).FirstOrDefault()?.ErrorMessage;
        try
        {
            IReadOnlyList<FilePiece> route = [.. design.Pieces.OrderBy(p => p.Position).Select(p => new FilePiece { Kind = p.Kind, Size = p.Size, Place = p.Place })];
            var basement = house.Areas.Count == 0 || house.Areas.Exists(a => a.Kind == FoundationKind.Basement);
            return new(JudgeSiting.Findings(await GatherMouth.OfAsync(db, design, house), route, basement), first, units);
        }
        catch (Exception e) when (e is ArgumentException or FormatException)
        {
            return new(null, first ?? e.Message.Split(" (Parameter", 2)[0], units);
        }
    }
}
