using MitigationOffice.Business.Data;
using MitigationOffice.Business.Work;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests.Monitor;

/// <summary>What a monitor's file says, read in one way: the hours, what was set right on the way, and what stands against it.</summary>
/// <param name="Refusals">Why it cannot be read so, each at the field that would mend it.</param>
public sealed record FileReading(MonitorHours? Hours, IReadOnlyList<Refusal> Refusals, IReadOnlyList<string> Remarks, int Rows);

/// <summary>Reads the rows of a monitor's file into hours. Nothing is guessed: two readings of one time, a time that never was, a broken rhythm are refused.</summary>
public static class ReadMonitorFile
{
    private const int MostTold = 4;

    public static FileReading Of(MonitorTable table, FileHabit habit, TimeZoneInfo houseZone, string? serial)
    {
        var reading = new Reading(table, habit, habit.Zone.Length == 0 ? houseZone : HouseTime.Zone(habit.Zone, houseZone.Id));
        reading.CheckColumns();
        if (reading.Refusals.Count == 0) reading.CheckSerial(serial);
        var hours = reading.Refusals.Count == 0 ? reading.Hours() : null;
        return new(reading.Refusals.Count == 0 ? hours : null, reading.Refusals, reading.Remarks, table.Rows.Count);
    }

    private sealed class Reading(MonitorTable table, FileHabit habit, TimeZoneInfo zone)
    {
        private readonly int _time = table.ColumnOf(habit.TimeColumn), _clock = table.ColumnOf(habit.ClockColumn), _value = table.ColumnOf(habit.ValueColumn), _serial = table.ColumnOf(habit.SerialColumn);

        public List<Refusal> Refusals { get; } = [];
        public List<string> Remarks { get; } = [];

        public void CheckColumns()
        {
            if (_time < 0) Refuse("TimeColumn", "Choose the column that holds the time of each row.");
            if (_value < 0) Refuse("ValueColumn", "Choose the column that holds the radon of each hour.");
            if (_time >= 0 && _time == _value) Refuse("ValueColumn", "The time and the radon cannot stand in the same column.");
        }

        public void CheckSerial(string? serial)
        {
            var wanted = Shop.Instrument.KeyOf(serial);
            var found = _serial >= 0
                ? table.Rows.Select(r => GuessHabit.Cell(r.Cells, _serial)).Where(s => s.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase).Take(5).ToList()
                : FileSerial.In(table.Before);
            if (found.Count == 0) Remarks.Add("The file does not say which device wrote it; you say it is this one.");
            else if (wanted.Length == 0) Remarks.Add($"The file was written by device {found[0]}; the test has no serial number for it.");
            else if (found.Find(f => Shop.Instrument.KeyOf(f) != wanted) is { } other)
                Refuse("SerialColumn", $"This file was written by device {other}, and the test names {serial}. Choose the file of {serial}, or correct the serial number on the test.");
            else Remarks.Add($"Written by device {found[0]}, as on the test.");
        }

        public MonitorHours? Hours()
        {
            var rows = Stamped();
            if (rows is null) return null;
            var values = new SortedDictionary<DateTime, (int Line, decimal? PCiL, string Cell)>();
            var (repeated, unread, negative, inFallBack) = (new List<int>(), new List<string>(), new List<int>(), false);
            foreach (var (line, at, cell) in rows)
            {
                var value = ValueOf(cell, line, unread, negative);
                if (values.TryAdd(at, (line, value, cell))) continue;
                repeated.Add(line);
                inFallBack |= habit.Clock != DeviceClock.LocalTime && FallsBack(at);
                if (values[at].PCiL == value && (value is not null || values[at].Cell == cell)) continue;
                Refuse(habit.Clock == DeviceClock.LocalTime ? "TimeColumn" : "Clock", $"Lines {values[at].Line} and {line} have the same time with different readings ({values[at].Cell} and {cell}).{(FallsBack(at) ? " In that night the clocks go back: choose “local time with daylight saving” if the device’s clock does." : " Take the wrong one out of a copy of the file, or read the monitor out again.")}");
                return null;
            }

            Tell(repeated.Count, "row stands twice and counts once", "rows stand twice and count once", repeated.ConvertAll(l => $"line {l}"));
            if (inFallBack) Remarks.Add("A row stands twice in the night in which the clocks go back. If this device’s clock is set back, these are two hours: choose “local time with daylight saving”.");
            Tell(unread.Count, "row has no number for the radon; its hour has no reading", "rows have no number for the radon; their hours have no reading", unread);
            Tell(negative.Count, "row is below zero, which no concentration can be; its hour has no reading", "rows are below zero, which no concentration can be; their hours have no reading", negative.ConvertAll(l => $"line {l}"));
            if (values.Values.Count(v => v.PCiL is not null) * 2 < values.Count)
                Refuse("ValueColumn", $"Of {values.Count} rows only {values.Values.Count(v => v.PCiL is not null)} hold a number in “{habit.ValueColumn}”. Choose the column with the radon of each hour.");
            return Refusals.Count > 0 ? null : InHours(values);
        }

        private decimal? ValueOf(string cell, int line, List<string> unread, List<int> negative)
        {
            var number = ReadStamp.NumberOf(cell);
            if (number is null) unread.Add($"line {line} “{(cell.Length > 20 ? cell[..20] + "…" : cell)}”");
            else if (number < 0) negative.Add(line);
            var most = RadonConcentration.LargestPciPerL * (habit.Unit == RadonUnit.BqM3 ? RadonConcentration.BqPerM3InOnePciPerL : 1m);
            if (number > most) unread.Add($"line {line} “{cell}”");
            if (number is not { } n || n < 0 || n > most) return null;
            return habit.Unit == RadonUnit.BqM3 ? RadonConcentration.FromBqPerM3(n).PciPerL : n;
        }

        private bool FallsBack(DateTime utc) => zone.GetUtcOffset(utc.AddHours(-6)) > zone.GetUtcOffset(utc.AddHours(6));

        private List<(int Line, DateTime Utc, string Cell)>? Stamped()
        {
            var (read, unread) = (new List<(int Line, DateTime Local, TimeSpan? Offset, string Cell)>(table.Rows.Count), new List<string>());
            foreach (var (line, cells) in table.Rows)
            {
                if (ReadStamp.Read(GuessHabit.Cell(cells, _time), GuessHabit.Cell(cells, _clock), habit.Order) is { } stamp) read.Add((line, stamp.Local, stamp.Offset, GuessHabit.Cell(cells, _value)));
                else unread.Add($"line {line} “{GuessHabit.Cell(cells, _time)}{(_clock >= 0 ? " " + GuessHabit.Cell(cells, _clock) : "")}”");
            }

            if (read.Count == 0 || unread.Count > read.Count / 10 + 3)
            {
                Refuse("TimeColumn", $"The times cannot be read: {string.Join(", ", unread.Take(MostTold))}. Choose the columns of the day and the clock time, and the order of day and month.");
                return null;
            }

            Tell(unread.Count, "row has no time that can be read and is left out", "rows have no time that can be read and are left out", unread);
            if (read.Count > 1 && read[0].Local > read[^1].Local) read.Reverse();
            return new ClockOfDevice(habit.Clock, zone).Resolve(read, Refuse, Remarks.Add);
        }

        private MonitorHours? InHours(SortedDictionary<DateTime, (int Line, decimal? PCiL, string Cell)> values)
        {
            var (hours, refusal, remark) = Rhythm.Of(values, habit.RowTime);
            if (refusal is not null) Refuse("TimeColumn", refusal);
            if (remark is not null) Remarks.Add(remark);
            return hours;
        }

        private void Tell(int count, string one, string many, List<string> which)
        {
            if (count > 0) Remarks.Add($"{count} {(count == 1 ? one : many)}: {string.Join(", ", which.Take(MostTold))}{(which.Count > MostTold ? $" and {which.Count - MostTold} more" : "")}.");
        }

        private void Refuse(string field, string words) => Refusals.Add(new(field, words));
    }
}
