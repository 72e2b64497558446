using System.Text;

namespace MitigationOffice.Web.Tests.Commands;

/// <summary>Standard output and error of one act, while other tests of this process write to theirs.</summary>
public static class Terminal
{
    private static readonly AsyncLocal<StringWriter?> Said = new();
    private static readonly AsyncLocal<StringWriter?> Refused = new();

    static Terminal()
    {
        Console.SetOut(new ByAct(Said, Console.Out));
        Console.SetError(new ByAct(Refused, Console.Error));
    }

    public static async Task<(int Code, string Said, string Refused)> CatchAsync(Func<Task<int>> act)
    {
        using var said = new StringWriter();
        using var refused = new StringWriter();
        (Said.Value, Refused.Value) = (said, refused);
        var code = await act();
        return (code, said.ToString(), refused.ToString());
    }

    private sealed class ByAct(AsyncLocal<StringWriter?> caught, TextWriter otherwise) : TextWriter
    {
        public override Encoding Encoding => otherwise.Encoding;

        public override void Write(char value) => (caught.Value ?? otherwise).Write(value);

        public override void Write(string? value) => (caught.Value ?? otherwise).Write(value);

        public override void WriteLine(string? value) => (caught.Value ?? otherwise).WriteLine(value);
    }
}
