using System.Globalization;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>Things that run out or should be back, and mail that may not have come: few of each, so one statement asks for all.</summary>
public sealed class ReadThingsToday(OfficeDb db, TodayClock at)
{
    private const int Asked = TodayGroup.Most + 1;
    private const int LicenceAheadDays = 60;

    public async Task<IReadOnlyList<TodayGroup>> DueAsync(bool kitsOnly)
    {
        var (asked, instruments, licences) = (at.Today.AddDays(-7), at.Today.AddDays(Shop.InstrumentsModel.DueSoonDays), at.Today.AddDays(LicenceAheadDays));
        // Mail has no day; PostgreSQL wants one of the same kind as the other rows have, and an empty one has no kind.
        DateOnly? nothing = at.Today;
        var kits = db.TestKits.AsNoTracking().Where(k => k.LostOn == null && !k.HasResult && k.SentToLabOn == null && k.BackBy <= at.Today && (k.AskedOn == null || k.AskedOn <= asked))
            .Select(k => new { What = "kit", k.Id, Name = k.Serial, More = k.HandedTo + ", " + db.Houses.Where(h => h.Id == k.HouseId).Select(h => h.Street).FirstOrDefault(), Due = (DateOnly?)k.BackBy, Other = k.AskedOn, Minutes = 0, House = 0 });
        var all = kitsOnly ? kits : kits.Concat(db.Instruments.Where(i => !i.Retired)
                .Select(i => new { i.Id, i.Serial, i.Model, i.UseBy, Due = i.Calibrations.OrderByDescending(c => c.DoneOn).Select(c => c.DueOn).FirstOrDefault() }).Where(i => i.Due <= instruments || i.UseBy <= instruments)
                .Select(i => new { What = "instrument", i.Id, Name = i.Serial, More = i.Model, i.Due, Other = i.UseBy, Minutes = 0, House = 0 }))
            .Concat(db.Licences.Where(l => l.ExpiresOn <= licences)
                .Select(l => new { What = "licence", l.Id, Name = l.Holder, More = l.Number, Due = l.ExpiresOn, Other = l.ExpiresOn, Minutes = (l.EducationMinutesNeeded ?? 0) - l.Courses.Where(c => !c.Used).Sum(c => c.Minutes), House = 0 }))
            .Concat(db.Outbox.Where(m => m.State == DeliveryState.Refused || m.State == DeliveryState.Uncertain).OrderBy(m => m.Id).Take(Asked)
                .Select(m => new { What = m.State == DeliveryState.Refused ? "refused" : "uncertain", m.Id, Name = m.Subject + ", to " + m.ToAddress, More = m.LastAnswer, Due = nothing, Other = nothing, Minutes = 0, House = m.HouseId ?? 0 }));
        var rows = (await all.Take(4 * Asked).ToListAsync()).ConvertAll(r => new Row(r.What, r.Id, r.Name, r.More ?? "", r.Due, r.Other, r.Minutes, r.House));
        return
        [
            new("mail", "Mail that did not surely arrive", [.. rows.Where(r => r.What is "refused" or "uncertain").OrderBy(r => r.Id).Select(Mail)], "/follow-up"),
            new("kits", "Kits to ask for", [.. Of(rows, "kit").Select(Kit)], "/tests/kits?show=late"),
            new("instruments", "Instruments due", [.. Of(rows, "instrument").Select(Instrument)], "/shop/instruments"),
            new("licences", "Licences that end soon", [.. Of(rows, "licence").Select(Licence)], "/shop/licences"),
        ];
    }

    private sealed record Row(string What, int Id, string Name, string More, DateOnly? Due, DateOnly? Other, int Minutes, int House)
    {
        public DateOnly First => Due ?? Other ?? default;
    }

    private static IEnumerable<Row> Of(List<Row> rows, string what) => rows.Where(r => r.What == what).OrderBy(r => r.First).ThenBy(r => r.Id).Take(Asked);

    private static TodayItem Mail(Row r) => new(r.House > 0 ? $"/houses/{r.House}/follow-up" : "/follow-up", r.Name,
        r.What == "refused" ? $"refused{(r.More.Length > 0 ? ": " + Short(r.More) : "")}" : "the mail server took it but never answered: ask whether it came", Late: true);

    private static string Short(string text) => text.Length <= 120 ? text : text[..120] + "…";

    private TodayItem Kit(Row r) => new($"/tests/kits/{r.Id}", $"Kit {r.Name}",
        $"with {r.More}, due back {at.Ago(r.First)}{(r.Other is { } asked ? $", asked for {at.Ago(asked)}" : "")}: ask for it, or write it off as lost", r.First < at.Today);

    private TodayItem Instrument(Row r) => new($"/shop/instruments/{r.Id}", $"{r.Name}{(r.More.Length > 0 ? ", " + r.More : "")}",
        r.Due is null ? $"not to be opened after {HouseTime.Show(r.Other)}" : r.Due < at.Today ? $"calibration was due {at.Ago(r.First)}: set it out no more until it is back" : $"calibration due {at.Ahead(r.First)}", r.First < at.Today);

    private TodayItem Licence(Row r) => new("/shop/licences", $"{r.Name}, {r.More}",
        (r.First < at.Today ? $"ended {at.Ago(r.First)}" : $"ends {at.Ahead(r.First)}") + (r.Minutes > 0 ? $"; {(r.Minutes / 60m).ToString("0.##", CultureInfo.InvariantCulture)} h of education still missing" : ""), r.First < at.Today);
}
