using System.Globalization;

namespace MitigationOffice.Business.FollowUp;

/// <summary>The figures of a rule as they are kept and typed.</summary>
public static class ReminderDays
{
    /// <summary>"14, 30" in order; nothing typed: the day itself.</summary>
    public static IReadOnlyList<int> Read(string typed)
    {
        var days = Parts(typed).Select(p => int.TryParse(p, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var d) ? d : (int?)null).OfType<int>().Distinct().Order().ToList();
        return days.Count == 0 ? [0] : days;
    }

    public static string? Problem(string typed) =>
        Parts(typed).All(p => int.TryParse(p, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var d) && d is >= -400 and <= 4000) && Parts(typed).Count <= 6
            ? null
            : "Write the days as numbers with commas between, for example 14, 30; at most six, from -400 to 4000.";

    /// <summary>"10-15": month and day of every year.</summary>
    public static (int Month, int Day)? Season(string typed) =>
        typed.Trim().Split('-', '/') is [var m, var d]
        && int.TryParse(m, NumberStyles.None, CultureInfo.InvariantCulture, out var month) && int.TryParse(d, NumberStyles.None, CultureInfo.InvariantCulture, out var day)
        && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(2027, month)
            ? (month, day)
            : null;

    /// <summary>"Chime 9 = 24", a model a line; the model as it is written on the part.</summary>
    public static IReadOnlyDictionary<string, int> Models(string typed)
    {
        var models = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        foreach (var line in typed.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
            if (Model(line) is { } one) models[one.Model] = one.Months;
        return models;
    }

    public static string? ModelProblem(string typed) =>
        typed.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).FirstOrDefault(l => Model(l) is null) is { } line
            ? $"“{line}” is not read as a model and its months. Write a model a line, for example Chime 9 = 24; 0 months: never."
            : null;

    private static (string Model, int Months)? Model(string line) =>
        line.LastIndexOf('=') is > 0 and var at && int.TryParse(line[(at + 1)..].Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var months) && months <= 240
            ? (line[..at].Trim(), months)
            : null;

    private static List<string> Parts(string typed) => [.. typed.Split([',', ';', ' '], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)];
}
