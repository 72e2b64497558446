namespace MitigationOffice.Web.Tests.Commands;

public sealed class RunningTests : IDisposable
{
    private readonly ProgramRun _program = new();

    public void Dispose() => _program.Dispose();

    [Fact]
    public async Task A_second_office_on_the_same_folder_stops_with_words_and_a_backup_still_works()
    {
        using var office = await _program.ServeAsync();
        try
        {
            Assert.Contains("already running", (await _program.RunAloneAsync(null, "serve", "--urls", "http://127.0.0.1:0")).Sentence);

            var backup = await _program.RunAloneAsync(null, "backup", _program["b.zip"]);
            Assert.True(backup.Code == 0, backup.Refused);
            Assert.Contains("already running", (await _program.RunAloneAsync(null, "restore", _program["b.zip"])).Sentence);
        }
        finally
        {
            office.Kill();
            await office.WaitForExitAsync();
        }
    }

    [Fact]
    public async Task Every_bad_line_of_a_file_is_named_and_none_is_taken()
    {
        await File.WriteAllTextAsync(_program["prices.csv"], "code,name,kind,cost\r\nA1,Good,material,3\r\nA2,Bad kind,wood,3\r\nA3,Bad cost,material,three\r\n");
        var refused = await _program.RunAsync("import", "prices", _program["prices.csv"]);
        Assert.Equal(1, refused.Code);
        Assert.Contains("Line 3:", refused.Refused);
        Assert.Contains("Line 4:", refused.Refused);
        Assert.DoesNotContain("Line 2:", refused.Refused);
        Assert.False(File.Exists(_program.Database));
    }

    [Fact]
    public async Task A_dry_run_changes_nothing_and_the_run_after_it_does()
    {
        var fans = Path.Combine(AppContext.BaseDirectory, "demo-data", "fans.csv");
        Assert.Equal("6 fans read, every line right; nothing was changed.", (await _program.RunAsync("import", "fans", fans, "--dry-run")).Said.Trim());
        Assert.False(File.Exists(_program.Database));
        Assert.Equal("6 added, 0 changed, 0 as they were.", (await _program.RunAsync("import", "fans", fans)).Said.Trim());
        Assert.Equal("0 added, 0 changed, 6 as they were.", (await _program.RunAsync("import", "fans", fans)).Said.Trim());
        Assert.Equal(6L, await _program.SqlAsync("SELECT count(*) FROM \"Fans\""));
    }

    [Theory]
    [InlineData(2, "import", "fish", "x.csv")]
    [InlineData(2, "report", "month", "2026-13", "--out", "x")]
    [InlineData(1, "backup", "x.zip")]
    [InlineData(1, "export", "all", "x.zip")]
    [InlineData(1, "restore", "there-is-no-such-file.zip")]
    [InlineData(1, "import", "fans", "there-is-no-such-file.csv")]
    public async Task Wrong_usage_is_2_and_failure_is_1_each_with_words(int code, params string[] verb)
    {
        var answer = await _program.RunAsync(verb);
        Assert.Equal(code, answer.Code);
        Assert.NotEqual("", answer.Refused);
        Assert.DoesNotContain("   at ", answer.Refused);
    }

    [Theory]
    [InlineData(2, "backup")]
    [InlineData(1, "verify")]
    public async Task A_process_ends_with_the_code_of_its_verb(int code, params string[] verb)
    {
        var answer = await _program.RunAloneAsync(null, verb);
        Assert.Equal(code, answer.Code);
        Assert.NotEqual("", answer.Refused);
        Assert.DoesNotContain("   at ", answer.Refused);
    }
}
