using System.Text.Json;

namespace MitigationOffice.Business.FollowUp;

/// <summary>A sheet of sticky labels by its dimensions, in inches: page, label, corner of the first, step to the next.
/// Common practice, no source: hold a print on plain paper against your sheet first.</summary>
public sealed record LabelSheet(string Key, string Words, double[] PageIn, double[] LabelIn, double[] FirstIn, double[] StepIn, int Across, int Down)
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);
    private static readonly Lazy<IReadOnlyList<LabelSheet>> Sheets = new(() => Read());

    public static IReadOnlyList<LabelSheet> All => Sheets.Value;

    public int Count => Across * Down;

    /// <summary>Left and top of the nth label on its sheet, inches, from 0 in rows from the top.</summary>
    public (double X, double Y) Place(int n) => (FirstIn[0] + n % Across * StepIn[0], FirstIn[1] + n / Across % Down * StepIn[1]);

    public static LabelSheet? Of(string? key) => All.FirstOrDefault(s => s.Key == key);

    private static LabelSheet[] Read()
    {
        using var stream = typeof(LabelSheet).Assembly.GetManifestResourceStream("MitigationOffice.Business.FollowUp.label-sheets.json")
            ?? throw new InvalidOperationException("The list of label sheets is missing from the program.");
        return JsonSerializer.Deserialize<LabelSheet[]>(stream, Web) ?? [];
    }
}
