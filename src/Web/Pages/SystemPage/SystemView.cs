using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Web.Pages.SystemPage;

/// <summary>What a system's own page shows: what stands in the house and how it began. No name of a person, no result, no price.</summary>
public sealed record SystemView(
    int SystemId, int HouseId, string Street, string TagNumber, DateOnly CompletedOn, string SystemType, int SuctionPoints, string FanPlace, double? StartUpGaugePa, bool LeftRunning,
    string TimeZone, string Company, string CompanyPhone, string CompanyEmail, string CompanyZone, string StateProgram, string StateProgramPhone, int BatteryMonths, int RetestMonths)
{
    public sealed record Part(ComponentKind Kind, string Model, DateOnly FittedOn, DateOnly? BatteryOn);

    public IReadOnlyList<Part> Parts { get; init; } = [];
    public TimeZoneInfo Zone => HouseTime.Zone(TimeZone, CompanyZone);
    public bool HasAlarm => Parts.Any(p => p.Kind == ComponentKind.Alarm);
    public string Call => CompanyPhone.Length > 0 ? CompanyPhone : CompanyEmail;
    public string Program => StateProgram.Length == 0 ? "U.S. EPA, epa.gov/radon" : $"{StateProgram}{(StateProgramPhone.Length == 0 ? "" : ", " + StateProgramPhone)}";

    public static async Task<SystemView> LoadAsync(OfficeDb db, int systemId)
    {
        var view = await (from s in db.Systems.AsNoTracking()
                          where s.Id == systemId
                          join h in db.Houses on s.HouseId equals h.Id
                          from c in db.Company
                          select new SystemView(
                              s.Id, s.HouseId, h.Street, s.TagNumber, s.CompletedOn, s.SystemType, s.SuctionPoints, s.FanPlace, s.StartUpGaugePa, s.LeftRunning,
                              h.TimeZone, c.Name, c.Phone, c.Email, c.TimeZone, c.StateProgram, c.StateProgramPhone, c.AlarmBatteryMonths, c.RetestMonths)).SingleAsync();
        return view with
        {
            Parts = await db.Systems.Where(s => s.Id == systemId).SelectMany(s => s.Components).Where(c => c.RemovedOn == null).OrderBy(c => c.Kind).ThenBy(c => c.Id)
                .Select(c => new Part(c.Kind, c.Model, c.FittedOn, c.BatteryFittedOn)).ToListAsync(),
        };
    }
}
