using MitigationOffice.Business.Data;
using MitigationOffice.Web.Setup.Demo;

namespace MitigationOffice.Web.Setup;

/// <summary>What the program's window says once the office is open.</summary>
public static class Welcome
{
    public static void Print(WebApplication app, bool demo)
    {
        var address = app.Urls.FirstOrDefault() ?? "http://localhost:5080";
        Console.WriteLine($"The office is open at {address}");
        if (demo) PrintPeople();
        else if (IsEmpty(app)) Console.WriteLine($"Nobody can sign in yet: open {address}/first-owner. From another machine it asks for this set-up word: {app.Services.GetRequiredService<SetUpWord>().Value}");
        Console.WriteLine("Stop it with Ctrl+C.");
    }

    private static void PrintPeople()
    {
        Console.WriteLine($"Everything in it is invented. The password of all three is: {LoadDemo.Password}");
        foreach (var person in DemoFiles.Company().People) Console.WriteLine($"  {person.Email}  ({person.Role})");
        Console.WriteLine("Outgoing mail is written as files; read it under Follow-up.");
    }

    private static bool IsEmpty(WebApplication app)
    {
        using var scope = app.Services.CreateScope();
        return !scope.ServiceProvider.GetRequiredService<OfficeDb>().Users.Any();
    }
}
