using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Work;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

/// <summary>Makes the letter of a judged test, stores it, and writes the message that carries it. Once for each test.</summary>
public static class SendResult
{
    public const string PdfType = "application/pdf";

    /// <summary>Sends the letter by mail, or notes that it was handed over on paper where <paramref name="from"/> is empty. A second
    /// sending of the same test's letter does nothing but say so.</summary>
    public static Task<IReadOnlyList<Refusal>> RunAsync(OfficeDb db, int testId, MailIdentity? from, TimeZoneInfo zone, DateTime nowUtc, string by) =>
        db.WriteAsync<IReadOnlyList<Refusal>>(async () =>
        {
            var test = await db.RadonTests.Include(t => t.Devices).SingleAsync(t => t.Id == testId);
            if (test.LetterSentAtUtc is { } sent) return [new("", $"The letter went out on {HouseTime.Show(sent, zone)}. It is sent once.")];
            if (test.JudgedAtUtc is null || await FanOnAsync(db, test) is not { } fanOn) return [new("", "Draw the verdict first; the letter tells it.")];
            var to = await OwnerAsync(db, test.HouseId);
            if (from is not null && !MailAddress.IsUsable(to?.Email)) return [new("", "The owner of the house has no e-mail address on record. Print the letter and note that it was handed over.")];
            var facts = await GatherAsync(db, test, JudgeTest.Of(test, fanOn, test.TargetPCiL!.Value, zone), zone, nowUtc);
            var letter = StoredDocument.Of(ResultLetter.Make(facts), PaperKind.ResultLetter, $"Radon result of {HouseTime.Show(facts.Day)}", $"radon-result-{testId}.pdf", PdfType, test.HouseId, nowUtc, by);
            db.Documents.Add(letter);
            if (from is not null) await QueueMail.AddAsync(db, from, nowUtc, Mail(test, to!.Value, facts, letter));
            await db.SaveChangesAsync();
            (test.LetterDocumentId, test.LetterSentAtUtc) = (letter.Id, nowUtc);
            await db.SaveChangesAsync();
            return [];
        });

    /// <summary>The instant from which the test's window runs.</summary>
    public static Task<DateTime?> FanOnAsync(OfficeDb db, RadonTest test) =>
        db.Systems.Where(s => s.Id == test.InstalledSystemId).Select(s => (DateTime?)s.ActivatedAtUtc).FirstOrDefaultAsync();

    private static async Task<(string Email, string Name)?> OwnerAsync(OfficeDb db, int houseId)
    {
        var owner = await db.HouseOwners.Where(o => o.HouseId == houseId && o.ToDay == null).OrderByDescending(o => o.FromDay)
            .Select(o => new { o.Customer!.Email, o.Customer.Name }).FirstOrDefaultAsync();
        return owner is null ? null : (owner.Email, owner.Name);
    }

    private static Letter Mail(RadonTest test, (string Email, string Name) to, ResultLetterFacts facts, StoredDocument letter) =>
        new($"result-letter:{test.Id}", MailClass.Work, to.Email, to.Name, $"{ResultLetter.Headline(facts.Outcome)}: {facts.House}",
            string.Join("\n\n", [$"Hello {to.Name},", .. ResultLetter.PlainWords(facts), ResultLetter.Next(facts), "The letter with every reading is attached."]))
        {
            HouseId = test.HouseId,
            Attachments = [new(letter.FileName, letter.ContentType, letter.Bytes)],
        };

    /// <summary>Gathers what the letter says about a judged test.</summary>
    public static async Task<ResultLetterFacts> GatherAsync(OfficeDb db, RadonTest test, JudgeTest.Verdict verdict, TimeZoneInfo zone, DateTime nowUtc)
    {
        var company = await db.Company.AsNoTracking().SingleAsync();
        var h = await db.Houses.AsNoTracking().Where(x => x.Id == test.HouseId).Select(x => new
        {
            House = x,
            Owner = x.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!.Name).FirstOrDefault(),
            Before = x.EarlierTests.OrderByDescending(t => t.EndedOn).ThenByDescending(t => t.Id).Select(t => (decimal?)t.PCiL).FirstOrDefault(),
        }).SingleAsync();
        var ended = HouseTime.DayOf(test.EndedAtUtc!.Value, zone);
        return new ResultLetterFacts
        {
            MadeAtUtc = nowUtc, Day = HouseTime.DayOf(nowUtc, zone), Company = company.Name, Phone = company.Phone, CertificationNumber = company.CertificationNumber,
            StateProgram = company.StateProgram, House = h.House.AddressLine, For = h.Owner ?? "", Outcome = test.Outcome, Deciding = verdict.Engine.Deciding,
            TargetPCiL = test.TargetPCiL ?? company.TargetPCiL, Started = HouseTime.Show(test.StartedAtUtc, zone), Ended = HouseTime.Show(test.EndedAtUtc, zone),
            MadeBy = test.MadeBy, MadeByNumber = test.MadeByNumber, Rooms = [.. verdict.Engine.Locations.SelectMany(Rows)],
            Why = [.. verdict.Reasons.Where(r => r.Kind != ReasonKind.Decides).Select(r => r.Sentence)],
            TestAgainOn = Retest.DueOn(ended) is var two && ended.AddMonths(company.RetestMonths) is var own && own < two ? own : two,
            Before = h.Before is { } before ? RadonConcentration.FromPciPerL(before).ToString() : "",
        };
    }

    /// <summary>A monitor with the day of its calibration, which belongs on the report (ANSI/AARST MAH 2019, 8.5.3(b)), and its hours.</summary>
    private static string Said(Engineering.Radon.TestDevice device) =>
        device.Name + (device is { IsContinuousMonitor: true, CalibratedOn: { } day } ? $", calibrated {HouseTime.Show(day)}" : "") + (device.Hourly is { } hourly ? $", {hourly.HoursUsed} hours counted" : "");

    private static IEnumerable<PaperRow> Rows(LocationResult place)
    {
        foreach (var device in place.Devices) yield return new(place.Room, Said(device), place.IsAverage ? device.Result.ToString() : device.Result.Display());
        if (place.IsAverage) yield return new($"{place.Room}, average of the pair", "", place.Result.Display()) { Strong = true };
    }
}
