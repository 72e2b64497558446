namespace MitigationOffice.Business.Work;

/// <summary>The kinds of system in the trade's words.</summary>
public static class SystemKinds
{
    public static readonly IReadOnlyList<(string Value, string Words)> All = [.. Enum.GetValues<SystemKind>().Select(k => (k.ToString(), WordsOf(k)))];

    public static string WordsOf(SystemKind kind) => kind switch
    {
        SystemKind.SumpOrDrainTileSuction => "Sump or drain-tile suction",
        SystemKind.SubMembraneSuction => "Sub-membrane suction",
        _ => "Sub-slab suction",
    };
}
