using MitigationOffice.Business.Messages.Returned;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>What a report of returned mail led to, in a sentence.</summary>
public static class ReturnWords
{
    public static string Of(ReturnedMail r) => r.Kind switch
    {
        ReturnKind.Hard => $"{r.Address} takes no mail: it is not written to any more, and its reminders wait for a letter or a call.",
        ReturnKind.Soft => $"The message to {r.Address} came back; the address may still be good.",
        ReturnKind.Delayed => $"The message to {r.Address} is still on its way; nothing was changed.",
        ReturnKind.Arrived => $"The message to {r.Address} arrived; nothing was changed.",
        _ => r.OutboxMessageId is null ? "The report names no message of ours; nothing was changed." : "The report names another address than we wrote to; nothing was changed.",
    };

    public static string Kind(ReturnKind kind) => kind switch
    {
        ReturnKind.Hard => "address takes no mail",
        ReturnKind.Soft => "came back",
        ReturnKind.Delayed => "still on its way",
        ReturnKind.Arrived => "arrived",
        _ => "not ours",
    };
}
