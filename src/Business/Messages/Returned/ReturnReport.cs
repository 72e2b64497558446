namespace MitigationOffice.Business.Messages.Returned;

/// <summary>What a report says about one recipient.</summary>
/// <param name="MessageIds">Message-IDs that it names, without brackets; the first that is ours counts.</param>
/// <param name="Recipients">The recipient as finally and as originally addressed; empty when it does not say.</param>
public sealed record ReturnReport(IReadOnlyList<string> MessageIds, IReadOnlyList<string> Recipients, string Action, string Status, string Words)
{
    public ReturnKind Kind => Action switch
    {
        "delayed" => ReturnKind.Delayed,
        "delivered" or "relayed" or "expanded" => ReturnKind.Arrived,
        _ when Status.StartsWith("5.1.", StringComparison.Ordinal) || Status is "5.2.1" => ReturnKind.Hard,
        _ when Status.StartsWith('4') && Action.Length == 0 => ReturnKind.Delayed,
        _ when Status.StartsWith('2') => ReturnKind.Arrived,
        _ => ReturnKind.Soft,
    };
}
