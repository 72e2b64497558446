using Microsoft.AspNetCore.Mvc.ModelBinding;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Design.Report;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Design;

/// <summary>A quick look at a route as it is being typed: its drawing, and what the fans hold through it. Nothing is stored, and the
/// winter's ice is left to the sheet.</summary>
public sealed record RouteLook(HouseFacts? Facts, DesignReport? Report, string? Refusal)
{
    /// <summary>What cannot be read yet is left out of the drawing; the form tells of it when it is saved.</summary>
    public static async Task<RouteLook> OfAsync(OfficeDb db, int houseId, RouteForm typed, IReadOnlyList<TestChoice> tests, UnitSystem units)
    {
        var (design, problems) = (new SuctionDesign { HouseId = houseId, Revision = "" }, new ModelStateDictionary());
        typed.Write(design, new FormReading(problems, "Input", units), tests);
        if (!tests.Any(t => t.Id == design.PressureFieldTestId)) return new(null, null, "Choose the PFE test this design answers.");
        var inputs = (await GatherDesign.InputsAsync(db, design))!;
        var first = problems.SelectMany(p => p.Value!.Errors).FirstOrDefault()?.ErrorMessage;
        var (report, refusal) = first is null ? Compute(inputs) : (null, first);
        return new(SectionOfDesign.Of(design, report, inputs.House, inputs.House.AddressLine, units), report, refusal);
    }

    private static (DesignReport? Report, string? Refusal) Compute(DesignInputs inputs)
    {
        try
        {
            return (ComputeReport.Of(inputs.File, quick: true), null);
        }
        catch (DesignRefused e)
        {
            return (null, e.Message);
        }
    }
}
