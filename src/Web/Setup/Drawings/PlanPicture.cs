using System.Globalization;
using MitigationOffice.Business.Houses;
using MitigationOffice.Engineering.Slab;

namespace MitigationOffice.Web.Setup.Drawings;

/// <summary>A picture under the floor plan, and the corners of the plan it covers.</summary>
public sealed record PlanPicture(string Address, PlanPoint Low, PlanPoint High, bool Printed)
{
    public static PlanPicture? Of(PlanBackdrop? backdrop) =>
        backdrop?.Lies is var (low, high) ? new(AddressOf(backdrop), low, high, backdrop.Printed) : null;

    public static string AddressOf(PlanBackdrop backdrop) => string.Create(CultureInfo.InvariantCulture, $"/houses/{backdrop.HouseId}/plan/picture/{backdrop.DocumentId}");
}
