using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.Service;

/// <summary>Writes down that somebody asks for help. The same sending makes one call.</summary>
public static class OpenCall
{
    /// <summary>What was said.</summary>
    public sealed record Asked(int HouseId, int? SystemId, Sign Sign, string Words, string CallerName, string CallerPhone, string CallerEmail)
    {
        public double? GaugePa { get; init; }
        public string GaugeAsEntered { get; init; } = "";
        public double? OutdoorC { get; init; }
        public bool ByOwnPage { get; init; }
    }

    /// <param name="tellOffice">How mail leaves, where nobody of the office was present and it is to be told.</param>
    public static async Task<ServiceCall> RunAsync(OfficeDb db, Asked asked, string sendingKey, DateTime nowUtc, MailSettings? tellOffice = null)
    {
        try
        {
            return await db.WriteAsync(async () =>
            {
                if (await db.ServiceCalls.FirstOrDefaultAsync(c => c.SendingKey == sendingKey) is { } before) return before;
                var call = db.ServiceCalls.Add(new ServiceCall
                {
                    Number = await TakeNumber.NextAsync(db, "S", nowUtc.Year), SendingKey = sendingKey, HouseId = asked.HouseId, InstalledSystemId = asked.SystemId, AskedAtUtc = nowUtc,
                    ByOwnPage = asked.ByOwnPage, CallerName = asked.CallerName, CallerPhone = asked.CallerPhone, CallerEmail = asked.CallerEmail, Sign = asked.Sign, Words = asked.Words,
                    GaugePa = asked.GaugePa, GaugeAsEntered = asked.GaugeAsEntered, OutdoorC = asked.OutdoorC,
                }).Entity;
                await db.SaveChangesAsync();
                if (tellOffice is not null) await TellOffice.AddAsync(db, call, tellOffice, nowUtc);
                await db.SaveChangesAsync();
                return call;
            });
        }
        catch (DbUpdateException)
        {
            // The same sending arrived twice in the same moment: the first one stands.
            db.ChangeTracker.Clear();
            if (await db.ServiceCalls.FirstOrDefaultAsync(c => c.SendingKey == sendingKey) is { } first) return first;
            throw;
        }
    }
}
