using System.Linq.Expressions;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>A message in a list: to whom, about what, and what became of it.</summary>
public sealed record MessageRow(
    int Id, int? HouseId, string ToName, string ToAddress, string Subject, MailClass Class, DeliveryState State, DateTime CreatedAtUtc, DateTime? SentAtUtc, DateTime NextTryUtc,
    string LastAnswer, bool Resent)
{
    public static readonly Expression<Func<OutboxMessage, MessageRow>> Of = m => new MessageRow(
        m.Id, m.HouseId, m.ToName, m.ToAddress, m.Subject, m.Class, m.State, m.CreatedAtUtc, m.SentAtUtc, m.NextTryUtc, m.LastAnswer, m.ResentAtUtc != null);

    public string Words => State switch
    {
        DeliveryState.Waiting => "waiting",
        DeliveryState.Claimed => "being sent",
        DeliveryState.Sent => "sent",
        DeliveryState.Refused => "refused",
        DeliveryState.Uncertain => "may have arrived",
        _ => "not sent: asked for none",
    };
}
