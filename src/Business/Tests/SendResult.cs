using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents;
using MitigationOffice.Business.Work;
using MitigationOffice.Engineering.Dates;
using MitigationOffice.Engineering.Radon;

namespace MitigationOffice.Business.Tests;

/// <summary>Makes the letter of a judged test, stores it, and writes the message that carries it. Once for each test.</summary>
public static class SendResult
{
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

    private static IEnumerable<PaperRow> Rows(LocationResult place)
    {
        foreach (var device in place.Devices) yield return new(place.Room, device.Name, place.IsAverage ? device.Result.ToString() : device.Result.Display());
        if (place.IsAverage) yield return new($"{place.Room}, average of the pair", "", place.Result.Display()) { Strong = true };
    }
}
