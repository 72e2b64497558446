using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Work;

/// <summary>A day of work as it is typed.</summary>
public sealed class DayRow
{
    public int? Id { get; set; }
    public string? Day { get; set; }
    public string? ArriveAt { get; set; }
    public string? Part { get; set; }
    public List<string> Who { get; set; } = [];

    public static DayRow Of(WorkDay d) => new()
    {
        Id = d.Id, Day = TypedNumbers.Plain(d.Day), ArriveAt = d.ArriveAt?.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture), Part = d.Part.ToString(),
        Who = [.. d.Bookings.Where(b => b.GivenBack == 0).Select(b => b.Resource).Distinct()],
    };
}

/// <summary>Reads the rows of days; an emptied one is left out, and with it its day is taken off.</summary>
public static class DayRows
{
    public static readonly IReadOnlyList<(string Value, string Words)> Parts = [("WholeDay", "whole day"), ("Morning", "morning"), ("Afternoon", "afternoon")];

    /// <summary>What was read, and where each row stands on the form.</summary>
    public static List<(int At, PlanDays.Row Row)> Read(IReadOnlyList<DayRow> rows, FormReading read)
    {
        var made = new List<(int, PlanDays.Row)>();
        for (var i = 0; i < rows.Count; i++)
        {
            var row = rows[i];
            var day = read.Day(row.Day, $"Days[{i}].Day", "day of the work");
            var at = read.Time(row.ArriveAt, $"Days[{i}].ArriveAt", "time of arrival");
            if (day is { } on) made.Add((i, new(row.Id, on, Enum.TryParse<DayPart>(row.Part, out var part) ? part : DayPart.WholeDay, at, row.Who)));
            else if (row.Id is null && string.IsNullOrWhiteSpace(row.Day) && (at is not null || row.Who.Count > 0)) read.Refuse($"Days[{i}].Day", "Write the day.");
        }

        return made;
    }

    /// <summary>A refusal about the n-th day that was read, at the row on the form where it stands.</summary>
    public static Refusal AtRow(Refusal refusal, IReadOnlyList<(int At, PlanDays.Row Row)> read)
    {
        if (!refusal.Field.StartsWith("Days[", StringComparison.Ordinal)) return refusal;
        var end = refusal.Field.IndexOf(']', StringComparison.Ordinal);
        var n = int.Parse(refusal.Field.AsSpan(5, end - 5), System.Globalization.CultureInfo.InvariantCulture);
        return refusal with { Field = $"Days[{read[n].At}]{refusal.Field[(end + 1)..]}" };
    }
}

/// <summary>What the rows of days are drawn from.</summary>
public sealed record DayRowsView(IReadOnlyList<DayRow> Days, IReadOnlyList<Bookable> All);
