using System.Globalization;
using MitigationOffice.Business.Diagnosis;
using MitigationOffice.Web.Pages.Diagnosis;

namespace MitigationOffice.Web.Pages.Plan;

/// <summary>Names for holes added to a PFE test: as typed, or the next number of its kind; no name twice.</summary>
internal sealed class NewHoleLabels(PressureFieldTest test)
{
    private readonly List<string> _suction = [.. test.SuctionHoles.Select(s => s.Label)];
    private readonly List<string> _tests = [.. test.TestHoles.Select(h => h.Label)];

    /// <summary>More than a test takes, in words; null while there is room.</summary>
    public string? TooMany =>
        _tests.Count > PfeForm.MostHoles ? Say($"That makes {_tests.Count} test holes; a test takes {PfeForm.MostHoles}. Leave some out.")
        : _suction.Count > PfeForm.MostSuction ? Say($"That makes {_suction.Count} suction holes; a test takes {PfeForm.MostSuction}. Leave some out.")
        : null;

    public (string Label, string? Problem) Take(string typed, bool suction)
    {
        var (taken, letter) = suction ? (_suction, "S") : (_tests, "T");
        var label = typed.Length > 0 ? typed : Enumerable.Range(taken.Count + 1, 100).Select(n => Say($"{letter}{n}")).First(n => !Has(taken, n));
        var problem = Has(taken, label) ? $"Two {(suction ? "suction " : "")}holes are called {label}; give each its own name." : null;
        taken.Add(label);
        return (label, problem);
    }

    private static bool Has(List<string> taken, string label) => taken.Exists(t => string.Equals(t, label, StringComparison.OrdinalIgnoreCase));

    private static string Say(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
