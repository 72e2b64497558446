namespace MitigationOffice.Business.Design;

/// <summary>The pipe sizes one may choose from, by the key the records keep.</summary>
public static class PipeChoices
{
    public static readonly IReadOnlyList<(string Key, string Words)> All =
        [("2in", "2 in"), ("3in", "3 in"), ("4in", "4 in"), ("6in", "6 in")];

    public static string WordsOf(string key) => All.FirstOrDefault(c => c.Key == key).Words ?? key;
}
