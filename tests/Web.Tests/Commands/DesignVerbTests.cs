using System.Text.Json;
using MitigationOffice.Business.Design.Files;
using MitigationOffice.Business.Design.Report;

namespace MitigationOffice.Web.Tests.Commands;

public sealed class DesignVerbTests : IDisposable
{
    private static readonly string Example = Path.Combine(AppContext.BaseDirectory, "demo-data", "design-example.json");
    private readonly ProgramRun _program = new();

    public void Dispose() => _program.Dispose();

    [Fact]
    public async Task The_example_file_gives_a_report_of_every_section()
    {
        var answer = await _program.RunAsync("design", Example);
        Assert.Equal((0, ""), (answer.Code, answer.Refused));
        var report = JsonSerializer.Deserialize<DesignReport>(answer.Said, DesignFileText.Json)!;
        Assert.Equal(3, report.Shown!.Points.Count);
        Assert.Equal(2, report.FurtherSoils.Count);
        Assert.NotNull(report.Coverage!.Proposal);
        Assert.Empty(report.Coverage.Weaknesses);
        Assert.Equal((2, false), (report.Freeze!.Winters, report.Freeze.WinterMadeUp));
        Assert.All(report.Freeze.ColdSpell, day => Assert.NotNull(day.ManometerPa));
        Assert.NotEmpty(report.Siting!.Rules);
        Assert.False(Directory.Exists(_program.Office));
    }

    [Theory]
    [InlineData("\"elevationM\"", "\"elevatonM\"", "Unknown field “elevatonM” at site.elevatonM")]
    [InlineData("\"elevationM\": 310", "\"elevationM\": 31000", "site.elevationM is 31000 m; it must lie from -100 to 4000 m.")]
    [InlineData("\"elevationM\": 310", "\"elevationM\": NaN", "it is not valid JSON")]
    [InlineData("tenthsOfCelsius", "fahrenheit", "climate: ")]
    [InlineData("\"2022-11-07\"", "\"2022-11-06\"", "climate: 2022-11-06 is there more than once")]
    public async Task A_wrong_file_is_one_sentence_and_exit_code_1(string was, string now, string says)
    {
        var text = await File.ReadAllTextAsync(Example);
        Assert.Contains(was, text, StringComparison.Ordinal);
        await File.WriteAllTextAsync(_program["wrong.json"], text.Replace(was, now, StringComparison.Ordinal));
        Assert.Contains(says, (await _program.RunAsync("design", _program["wrong.json"])).Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_without_end_is_refused()
    {
        await using (var file = File.Create(_program["huge.json"])) file.SetLength(200_000_000);
        Assert.Contains("no design file is that long", (await _program.RunAsync("design", _program["huge.json"])).Sentence, StringComparison.Ordinal);
        Assert.NotEqual("", (await _program.RunAsync("design", _program.Folder)).Sentence);
    }
}
