using Microsoft.AspNetCore.Mvc.ModelBinding;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Service;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.SystemPage;

/// <summary>What the house owner sees today, as it stands in the address: looking and asking for advice changes nothing.</summary>
public sealed class LookForm
{
    public string? Sign { get; set; }
    public string? Gauge { get; set; }
    public string? Outdoor { get; set; }

    public bool IsEmpty => string.IsNullOrWhiteSpace(Sign) && string.IsNullOrWhiteSpace(Gauge);

    /// <summary>What was read, into a look at the system; null with refusals at the fields.</summary>
    public Look? Read(ModelStateDictionary state, Look look, UnitSystem units)
    {
        var read = new FormReading(state, "Seen", units);
        var (gauge, outdoor) = (read.Measure(Measures.GaugePressure, Gauge, nameof(Gauge)), read.Measure(Measures.Temperature, Outdoor, nameof(Outdoor)));
        var sign = Enum.TryParse<Sign>(Sign, out var said) && Enum.IsDefined(said) ? said : Business.Service.Sign.JustReading;
        if (sign == Business.Service.Sign.JustReading && string.IsNullOrWhiteSpace(Gauge)) read.Refuse(nameof(Gauge), "Write what the gauge shows, or choose what you see.");
        return state.IsValid ? look with { Sign = sign, GaugePa = gauge, OutdoorC = outdoor } : null;
    }
}

/// <summary>How the company reaches the one who asks.</summary>
public sealed class AskForm
{
    public string? Name { get; set; }
    public string? Phone { get; set; }
    public string? Email { get; set; }
    public string? Words { get; set; }
    public string? Sending { get; set; }
}
