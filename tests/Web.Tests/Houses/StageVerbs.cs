using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Tests;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Houses;

/// <summary>Brings houses to later stages, straight into the records: what the pages of those stages do is tested with them.</summary>
public static class StageVerbs
{
    public static Task<int> AddQuoteAsync(this OfficeApp office, int houseId, RevisionState state, DateOnly? validUntil) => office.WithDbAsync(async db =>
    {
        var customerId = await db.HouseOwners.Where(o => o.HouseId == houseId).Select(o => o.CustomerId).FirstAsync();
        var revision = new QuoteRevision
        {
            Letter = "A",
            State = state,
            ValidUntil = validUntil,
            SentAtUtc = office.Clock.GetUtcNow().UtcDateTime.AddDays(-20),
            CreatedAtUtc = office.Clock.GetUtcNow().UtcDateTime.AddDays(-21),
            Quote = new Quote { Number = $"Q-T-{houseId:0000}", HouseId = houseId, CustomerId = customerId },
        };
        db.Add(revision);
        await db.SaveChangesAsync();
        return revision.Id;
    });

    public static async Task AddJobAsync(this OfficeApp office, int houseId, JobState state, DateOnly? day)
    {
        var revisionId = await office.AddQuoteAsync(houseId, RevisionState.Accepted, null);
        await office.WithDbAsync(async db =>
        {
            var now = office.Clock.GetUtcNow().UtcDateTime;
            var pdf = StoredDocument.Of("%PDF-1.7 signed"u8.ToArray(), PaperKind.SignedQuote, "Signed quote", "signed.pdf", "application/pdf", houseId, now, "Ada Quill");
            db.Add(pdf);
            await db.SaveChangesAsync();
            var acceptance = new Acceptance
            {
                QuoteRevisionId = revisionId,
                TypedName = "W. Alder",
                ConsentText = "-",
                IntentText = "-",
                TimeZone = "America/Chicago",
                AtUtc = now,
                PdfDocumentId = pdf.Id,
                PdfSha256 = pdf.Sha256,
                SignedDocumentId = pdf.Id,
                SignedSha256 = pdf.Sha256,
                PreviousHash = "",
                Hash = "",
            };
            db.Add(acceptance);
            await db.SaveChangesAsync();
            db.Add(new Job { Number = $"J-T-{houseId:0000}", HouseId = houseId, AcceptanceId = acceptance.Id, State = state, Day = day, CreatedAtUtc = now });
            await db.SaveChangesAsync();
        });
    }

    public static Task AddTestAsync(this OfficeApp office, int houseId, int? systemId, TestOutcome outcome, DateTime startedAtUtc, DateTime? endedAtUtc, DeviceKind device = DeviceKind.Charcoal) =>
        office.WithDbAsync(async db =>
        {
            db.Add(new RadonTest
            {
                HouseId = houseId,
                InstalledSystemId = systemId,
                Outcome = outcome,
                StartedAtUtc = startedAtUtc,
                EndedAtUtc = endedAtUtc,
                Devices = [new TestDevice { Kind = device, Room = "Basement" }],
            });
            await db.SaveChangesAsync();
        });
}
