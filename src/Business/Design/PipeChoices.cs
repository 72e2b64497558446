using MitigationOffice.Engineering.Piping;

namespace MitigationOffice.Business.Design;

/// <summary>The pipe sizes one may choose from, by the key the records keep, in short words.</summary>
public static class PipeChoices
{
    public static readonly IReadOnlyList<(string Key, string Words)> All =
        [.. PipeSize.All.Select(s => (s.Key, s.Name.Replace(" Schedule 40", "", StringComparison.Ordinal)))];

    public static string WordsOf(string key) => All.FirstOrDefault(c => c.Key == key).Words ?? key;
}
