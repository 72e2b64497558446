using System.Globalization;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>How a file seems to be written: as this device wrote before, or told from its heads and rows. A proposal; the person decides.</summary>
public static class GuessHabit
{
    private const int Sample = 2_000;

    public static FileHabit Of(MonitorTable table, FileHabit? remembered)
    {
        if (remembered is not null && Fits(table, remembered)) return remembered with { Separator = table.Separator };
        var rows = table.Rows.Take(Sample).ToList();
        var columns = Enumerable.Range(0, table.Heads.Count).ToList();
        var time = columns.FirstOrDefault(c => Share(rows, c, ReadStamp.LooksLikeTime) > 0.6, -1);
        var whole = time >= 0 && Share(rows, time, cell => ReadStamp.Read(cell, "", DayOrder.MonthFirst) is not null || ReadStamp.Read(cell, "", DayOrder.DayFirst) is not null) > 0.6;
        var clock = time < 0 || whole ? -1 : columns.FirstOrDefault(c => c != time && Share(rows, c, ReadStamp.LooksLikeClock) > 0.6, -1);
        var numbers = columns.Where(c => c != time && c != clock && Share(rows, c, cell => ReadStamp.NumberOf(cell) is not null) > 0.3).ToList();
        var value = numbers.FirstOrDefault(c => Says(table.Heads[c], "radon", "pci", "bq") && !Says(table.Heads[c], "average", "avg", "mean"), -1) is var named and >= 0 ? named : numbers.FirstOrDefault(c => rows.Any(r => Cell(r.Cells, c).Contains('.', StringComparison.Ordinal)), numbers.FirstOrDefault(-1));
        var serial = columns.FirstOrDefault(c => c != value && Says(table.Heads[c], "serial", "s/n", "device id", "monitor id"), -1);
        var unit = value >= 0 && Says(table.Heads[value], "bq") || table.Before.Any(b => Says(b, "bq/m")) ? RadonUnit.BqM3 : RadonUnit.PCiL;
        var utc = time >= 0 && Says(table.Heads[time], "utc", "gmt");
        return new FileHabit
        {
            Separator = table.Separator, TimeColumn = Head(table, time), ClockColumn = Head(table, clock), ValueColumn = Head(table, value), SerialColumn = Head(table, serial), Unit = unit,
            Order = OrderOf(rows, time), Clock = utc ? DeviceClock.UniversalTime : remembered?.Clock ?? DeviceClock.StandardTime, Zone = remembered?.Zone ?? "",
            RowTime = time >= 0 && Says(table.Heads[time], "end") ? RowTime.EndsTheHour : remembered?.RowTime ?? RowTime.BeginsTheHour,
            DropFirstHours = remembered?.DropFirstHours ?? 4, DeviceCorrectsStart = remembered?.DeviceCorrectsStart ?? false,
        };
    }

    private static bool Fits(MonitorTable table, FileHabit habit) =>
        table.ColumnOf(habit.TimeColumn) >= 0 && table.ColumnOf(habit.ValueColumn) >= 0
        && (habit.ClockColumn.Length == 0 || table.ColumnOf(habit.ClockColumn) >= 0) && (habit.SerialColumn.Length == 0 || table.ColumnOf(habit.SerialColumn) >= 0);

    /// <summary>A number above 12 tells which place holds the month; else the order under which the rows lie closer together.</summary>
    private static DayOrder OrderOf(List<(int Line, string[] Cells)> rows, int column)
    {
        var days = rows.Select(r => Cell(r.Cells, column).Split(' ', 'T')[0]).Where(d => d.Length > 0).Distinct().ToList();
        var parts = days.Select(d => d.Split('/', '-', '.')).Where(p => p.Length == 3 && int.TryParse(p[0], out _) && int.TryParse(p[1], out _)).Select(p => (First: int.Parse(p[0], CultureInfo.InvariantCulture), Second: int.Parse(p[1], CultureInfo.InvariantCulture))).ToList();
        if (parts.Exists(p => p.First > 31)) return DayOrder.YearFirst;
        if (parts.Exists(p => p.First > 12)) return DayOrder.DayFirst;
        if (parts.Exists(p => p.Second > 12)) return DayOrder.MonthFirst;
        var (monthFirst, dayFirst) = (Span(days, DayOrder.MonthFirst), Span(days, DayOrder.DayFirst));
        if (monthFirst != dayFirst) return monthFirst < dayFirst ? DayOrder.MonthFirst : DayOrder.DayFirst;
        return days.Exists(d => d.Contains('.', StringComparison.Ordinal)) ? DayOrder.DayFirst : DayOrder.MonthFirst;
    }

    private static TimeSpan Span(List<string> days, DayOrder order)
    {
        var read = days.Select(d => ReadStamp.Read(d, "0:00", order)?.Local).OfType<DateTime>().ToList();
        return read.Count == 0 ? TimeSpan.MaxValue : read.Max() - read.Min();
    }

    private static double Share(List<(int Line, string[] Cells)> rows, int column, Func<string, bool> is_) =>
        rows.Count == 0 ? 0 : rows.Count(r => is_(Cell(r.Cells, column))) / (double)rows.Count;

    internal static string Cell(string[] cells, int column) => column >= 0 && column < cells.Length ? cells[column].Trim() : "";

    private static bool Says(string head, params string[] words) => words.Any(w => head.Contains(w, StringComparison.OrdinalIgnoreCase));

    private static string Head(MonitorTable table, int column) => column < 0 ? "" : table.Heads[column];
}
