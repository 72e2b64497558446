using System.Globalization;

namespace MitigationOffice.Engineering.Freezing.Weather;

/// <summary>
/// Reads the lines of a daily weather record: a header that names at least DATE, TMIN and TMAX in any order, then one line
/// a day, comma separated, quotes allowed. These are the column names of NOAA's GHCN-Daily CSV files.
/// </summary>
public static class DailyRecordReader
{
    /// <summary>Longest gap that is filled by a straight line between its neighbours, days.</summary>
    public const int LongestFilledGapDays = 3;

    /// <summary>Fewest days from November to March that make a winter count, days.</summary>
    public const int FewestColdSeasonDays = 90;

    private const int MostProblemsOfAKind = 20;

    // Deserts reach a mean daily swing of about 20 K (from memory).
    private const double WidestMeanSwingK = 30;

    /// <summary>
    /// Reads the record. Example: the lines "DATE,TMIN,TMAX" and "2024-01-05,-150,-50" in tenths give one day of −15 to −5 °C.
    /// </summary>
    /// <param name="lines">The lines of the file, header first.</param>
    /// <param name="unit">The unit of TMIN and TMAX.</param>
    /// <returns>The days and the problems found; a line that cannot be read is left out and named.</returns>
    /// <exception cref="FormatException">The header is missing or lacks one of the three columns.</exception>
    /// <remarks>
    /// Range: temperatures from −70 to 60 °C after conversion; others are left out and named, since they most often mean
    /// that the unit is not the one stated.
    /// Source: column names of the GHCN-Daily documentation (NOAA National Centers for Environmental Information).
    /// </remarks>
    public static DailyRecord Read(IEnumerable<string> lines, RecordUnit unit)
    {
        var problems = new List<string>();
        var read = ReadLines(lines, unit, problems);
        SuspectUnit(read, unit, problems);
        var ordered = WithoutDoubles(read, problems);
        var faults = problems.ToList();
        var (days, filled) = FillShortGaps(ordered, problems);
        var winters = CutIntoWinters(days, problems, faults);
        return new DailyRecord { Days = days, Problems = problems, Faults = faults, FilledDays = filled, Winters = winters };
    }

    private static List<WeatherDay> ReadLines(IEnumerable<string> lines, RecordUnit unit, List<string> problems)
    {
        using var line = lines.GetEnumerator();
        if (!line.MoveNext()) throw new FormatException("The record has no lines; a header with DATE, TMIN and TMAX is needed.");
        var header = Cells(line.Current);
        var (date, min, max) = (Column(header, "DATE"), Column(header, "TMIN"), Column(header, "TMAX"));
        var days = new List<WeatherDay>();
        var refused = new List<string>();
        for (var number = 2; line.MoveNext(); number++)
        {
            if (string.IsNullOrWhiteSpace(line.Current)) continue;
            var cells = Cells(line.Current);
            var (day, why) = ReadDay(cells, date, min, max, unit);
            if (day is not null) days.Add(day);
            else refused.Add(Say($"Line {number} left out: {why}."));
        }
        AddSome(problems, refused, "lines were left out");
        return days;
    }

    private static (WeatherDay? Day, string Why) ReadDay(string[] cells, int date, int min, int max, RecordUnit unit)
    {
        if (cells.Length <= Math.Max(date, Math.Max(min, max))) return (null, "it has too few columns");
        if (!DateOnly.TryParseExact(cells[date], "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
            return (null, $"'{cells[date]}' is not a date written like 2024-01-31");
        if (cells[min].Length == 0 || cells[max].Length == 0) return (null, "TMIN or TMAX is empty");
        if (!TryNumber(cells[min], out var low) || !TryNumber(cells[max], out var high))
            return (null, "TMIN or TMAX is not a number");
        var (minC, maxC) = (ToCelsius(low, unit), ToCelsius(high, unit));
        if (minC < -70 || maxC > 60) return (null, Say($"{minC:0.#} to {maxC:0.#} °C is no outdoor temperature; is the unit right?"));
        if (minC > maxC) return (null, Say($"TMIN {minC:0.#} °C is above TMAX {maxC:0.#} °C"));
        return (new WeatherDay { Day = day, MinC = minC, MaxC = maxC }, "");
    }

    private static bool TryNumber(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    private static double ToCelsius(double value, RecordUnit unit) => unit switch
    {
        RecordUnit.TenthsOfCelsius => value / 10,
        RecordUnit.Fahrenheit => (value - 32) / 1.8,
        _ => value,
    };

    // A station's name may hold a comma inside quotes; inside quotes a comma does not part cells.
    private static string[] Cells(string line)
    {
        var cells = new List<string>();
        var (start, quoted) = (0, false);
        for (var at = 0; at <= line.Length; at++)
        {
            if (at < line.Length && line[at] == '"') quoted = !quoted;
            if (at < line.Length && (quoted || line[at] != ',')) continue;
            cells.Add(line[start..at].Trim().Trim('\uFEFF').Trim('"').Trim());
            start = at + 1;
        }
        return [.. cells];
    }

    private static int Column(string[] header, string name)
    {
        var at = Array.FindIndex(header, cell => cell.Equals(name, StringComparison.OrdinalIgnoreCase));
        return at >= 0 ? at : throw new FormatException($"The header has no column {name}; it has: {string.Join(", ", header)}.");
    }

    // A record whose days hardly differ within tenths was degrees; one whose days differ by more than any climate's was tenths.
    private static void SuspectUnit(List<WeatherDay> days, RecordUnit unit, List<string> problems)
    {
        if (days.Count < 30) return;
        var swing = days.Average(day => day.MaxC - day.MinC);
        if (unit != RecordUnit.TenthsOfCelsius && swing > WidestMeanSwingK)
            problems.Add(Say($"Lowest and highest differ by {swing:0.0} K on average, more than in any climate: the values look like tenths of a degree."));
        if (unit == RecordUnit.TenthsOfCelsius && swing < 2.5)
            problems.Add(Say($"Lowest and highest differ by only {swing:0.0} K on average: the values look like whole degrees, not tenths."));
    }

    private static List<WeatherDay> WithoutDoubles(List<WeatherDay> days, List<string> problems)
    {
        var doubles = days.GroupBy(day => day.Day).Where(group => group.Count() > 1).Select(group => group.Key).ToList();
        AddSome(problems, [.. doubles.Select(day => Say($"{day:yyyy-MM-dd} is there more than once; the first is used."))], "days were doubled");
        return [.. days.DistinctBy(day => day.Day).OrderBy(day => day.Day)];
    }

    private static (List<WeatherDay> Days, int Filled) FillShortGaps(List<WeatherDay> days, List<string> problems)
    {
        var whole = new List<WeatherDay>(days.Count);
        var gaps = new List<string>();
        var filled = 0;
        foreach (var day in days)
        {
            var missing = whole.Count == 0 ? 0 : day.Day.DayNumber - whole[^1].Day.DayNumber - 1;
            if (missing > 0)
            {
                var fill = missing <= LongestFilledGapDays;
                gaps.Add(Say($"{missing} day(s) missing after {whole[^1].Day:yyyy-MM-dd}{(fill ? ", filled from the neighbours" : ", not filled")}."));
                if (fill) filled += Fill(whole, day, missing);
            }
            whole.Add(day);
        }
        AddSome(problems, gaps, "gaps were found");
        return (whole, filled);
    }

    private static int Fill(List<WeatherDay> whole, WeatherDay after, int missing)
    {
        var before = whole[^1];
        for (var step = 1; step <= missing; step++)
        {
            var share = step / (missing + 1.0);
            whole.Add(new WeatherDay
            {
                Day = before.Day.AddDays(step),
                MinC = before.MinC + share * (after.MinC - before.MinC),
                MaxC = before.MaxC + share * (after.MaxC - before.MaxC),
            });
        }
        return missing;
    }

    private static List<IReadOnlyList<WeatherDay>> CutIntoWinters(List<WeatherDay> days, List<string> problems, List<string> faults)
    {
        var winters = new List<IReadOnlyList<WeatherDay>>();
        foreach (var winter in days.Where(IsFromSeptemberToMay).GroupBy(day => day.Day.Month >= 7 ? day.Day.Year : day.Day.Year - 1))
        {
            var list = winter.ToList();
            var name = Say($"Winter {winter.Key}-{winter.Key + 1}");
            if (FirstGap(list) is { } after)
                AddFault(problems, faults, Say($"{name} left out: it has a gap too long to fill after {after:yyyy-MM-dd}."));
            else if (list.Count(IsColdSeason) < FewestColdSeasonDays)
                problems.Add(Say($"{name} left out: fewer than {FewestColdSeasonDays} days from November to March."));
            else
                winters.Add(list);
        }
        return winters;
    }

    private static bool IsFromSeptemberToMay(WeatherDay day) => day.Day.Month is >= 9 or <= 5;

    private static bool IsColdSeason(WeatherDay day) => day.Day.Month is >= 11 or <= 3;

    private static DateOnly? FirstGap(List<WeatherDay> days)
    {
        for (var at = 1; at < days.Count; at++)
            if (days[at].Day.DayNumber > days[at - 1].Day.DayNumber + 1) return days[at - 1].Day;
        return null;
    }

    private static void AddFault(List<string> problems, List<string> faults, string fault)
    {
        problems.Add(fault);
        faults.Add(fault);
    }

    private static void AddSome(List<string> problems, List<string> more, string what)
    {
        problems.AddRange(more.Take(MostProblemsOfAKind));
        if (more.Count > MostProblemsOfAKind) problems.Add(Say($"In all {more.Count} {what}; only the first {MostProblemsOfAKind} are named."));
    }

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
