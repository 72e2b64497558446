using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Service;

/// <summary>The mail to the office when somebody asked for service on a system's own page, where nobody of the office was present. One call, one mail.</summary>
public static class TellOffice
{
    /// <summary>Adds the mail to the outbox without saving: it is saved together with the call. Nothing where the company has no address.</summary>
    public static async Task AddAsync(OfficeDb db, ServiceCall call, MailSettings mail, DateTime nowUtc)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        if (!MailAddress.IsUsable(company.Email)) return;
        var house = await db.Houses.AsNoTracking().SingleAsync(h => h.Id == call.HouseId);
        var tag = await db.Systems.Where(s => s.Id == call.InstalledSystemId).Select(s => s.TagNumber).FirstOrDefaultAsync();
        var sender = Letterhead.Of(company, mail);
        // An answer goes to who asked.
        if (MailAddress.IsUsable(call.CallerEmail)) sender = sender with { ReplyToAddress = call.CallerEmail };
        var text = string.Join('\n', Lines(call, house.AddressLine, tag ?? "").Append("").Append($"The call, with likely causes in order: {sender.Link($"houses/{call.HouseId}/service/{call.Id}").AbsoluteUri}"));
        await QueueMail.AddAsync(db, sender, nowUtc, new Letter($"service-call:{call.Id}", MailClass.Work, company.Email, company.Name, Subject(call, house.Street), text) { HouseId = call.HouseId, Automatic = true });
    }

    private static string Subject(ServiceCall call, string street) =>
        $"{(call.Sign == Sign.FumesOrCoAlarm ? "CALL BACK AT ONCE, fumes or carbon monoxide: " : "Service asked for: ")}{street} ({call.Number})";

    private static IEnumerable<string> Lines(ServiceCall call, string house, string tag)
    {
        if (call.Sign == Sign.FumesOrCoAlarm) yield return "Make sure that everybody is out of the house and that the emergency number was called. The system stays off until the backdraft check is passed.\n";
        yield return $"{house}{(tag.Length == 0 ? "" : $", tag {tag}")}";
        yield return $"Asked by {call.CallerName}: {string.Join(", ", new[] { call.CallerPhone, call.CallerEmail }.Where(w => w.Length > 0))}";
        yield return "";
        yield return $"Seen: {CauseWords.Of(call.Sign)}.";
        if (call.GaugePa is { } gauge) yield return $"Gauge today: {Measures.GaugePressure.Show(gauge)}.";
        if (call.OutdoorC is { } outdoor) yield return $"Outdoors: {Measures.Temperature.Show(outdoor)}.";
        if (call.Words.Length > 0) yield return $"In their words:\n{call.Words}";
    }
}
