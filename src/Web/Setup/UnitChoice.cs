using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Setup;

/// <summary>The units this person wants to see, kept in a cookie of their browser.</summary>
public sealed class UnitChoice(IHttpContextAccessor context)
{
    public const string Cookie = "units";

    public UnitSystem System => context.HttpContext?.Request.Cookies[Cookie] == "SI" ? UnitSystem.SI : UnitSystem.US;

    public string Show(Measure measure, double? si) => measure.Show(si, System);

    public string Unit(Measure measure) => measure.UnitIn(System);
}
