namespace MitigationOffice.Web.Tests.Commands;

/// <summary>The verb report.</summary>
public sealed class ReportCommandTests : IDisposable
{
    private readonly ProgramRun _program = new();

    public void Dispose() => _program.Dispose();

    [Fact]
    public async Task A_month_is_frozen_once_and_written_again_byte_for_byte()
    {
        var first = await _program.RunAsync("report", "month", "2026-01", "--out", _program["one"], "--signed-by", "Ada Quill", "--with-gaps");
        Assert.True(first.Code == 0, first.Refused);
        var names = new[] { "csv", "xlsx", "pdf" }.Select(kind => $"state-report-general-month-2026-01.{kind}").ToList();
        Assert.Equal(names.Select(n => Path.Combine(_program["one"], n)), first.Said.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l.Trim()));
        Assert.Equal(0, (await _program.RunAsync("report", "month", "2026-01", "--profile", "general-month", "--out", _program["two"])).Code);
        foreach (var name in names) Assert.Equal(await File.ReadAllBytesAsync(Path.Combine(_program["one"], name)), await File.ReadAllBytesAsync(Path.Combine(_program["two"], name)));
        Assert.Equal(1L, await _program.SqlAsync("SELECT count(*) FROM \"ReportRuns\""));
        Assert.Equal(0, (await _program.RunAsync("verify")).Code);
    }

    [Fact]
    public async Task What_cannot_be_done_is_said_in_words_and_nothing_is_frozen()
    {
        await File.WriteAllTextAsync(_program["taken"], "a file, no folder");
        foreach (var (code, words, verb) in new (int, string, string[])[]
        {
            (2, "a year and a month, for example 2026-10", ["report", "month", "2026-13", "--out", _program["x"]]),
            (2, "a year and a quarter, for example 2026-Q4", ["report", "quarter", "2026-04", "--profile", "minnesota", "--out", _program["x"]]),
            (1, "There is no profile “utopia”. There are general-month", ["report", "month", "2026-01", "--profile", "utopia", "--out", _program["x"]]),
            (1, "is not reported by the month: use report quarter", ["report", "month", "2026-01", "--profile", "minnesota", "--out", _program["x"]]),
            (1, "asks for no report", ["report", "month", "2026-01", "--profile", "ohio", "--out", _program["x"]]),
            (1, "is not over yet", ["report", "month", "2199-01", "--out", _program["x"], "--with-gaps"]),
            (1, "No file can be written into", ["report", "month", "2026-01", "--out", _program["taken"], "--with-gaps"]),
            (1, "values are missing or doubtful", ["report", "month", "2026-01", "--out", _program["x"]]),
        })
        {
            var answer = await _program.RunAsync(verb);
            Assert.True(answer.Code == code, $"{string.Join(' ', verb)}: {answer.Code} {answer.Refused}");
            Assert.Contains(words, answer.Refused, StringComparison.Ordinal);
        }

        Assert.Equal(0L, await _program.SqlAsync("SELECT count(*) FROM \"ReportRuns\""));
    }
}
