using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Web.Pages.Today;

/// <summary>Money that is past due, and money that is owed back. One statement.</summary>
public sealed class ReadMoneyToday(OfficeDb db, TodayClock at)
{
    private const int Asked = TodayGroup.Most + 1;
    private const int LateAfterDays = 30;

    public async Task<IReadOnlyList<TodayGroup>> OwedAsync()
    {
        var (pastDue, back) = await ListOwed.PressingAsync(db, at.Today);
        return
        [
            new("owed-back", "Cancelled by the buyer", [.. back.Take(Asked).Select(b => new TodayItem($"/houses/{b.HouseId}/money", $"{b.Customer}, {b.Street}", BackWords(b), b.Amount > Money.Zero && b.By < at.Today))], "/money?show=credit"),
            new("money", "Money owed past due", [.. pastDue.Take(Asked).Select(r => new TodayItem(
                $"/houses/{r.HouseId}/money", $"{r.Customer}, {r.House}", $"{r.Age.PastDue}, the oldest due {at.Ago(r.Age.Since!.Value)}", r.Age.Since < at.Today.AddDays(-LateAfterDays)))], "/money?show=past-due"),
        ];
    }

    private string BackWords(OwedBack b) => b.Amount == Money.Zero
        ? $"the notice came {at.Ago(b.CameOn)}; nothing has to be given back. A job that was not done is called off: tell the crew and the electrician."
        : $"{b.Amount} owed back {(b.By < at.Today ? $"since {at.Ago(b.By)}" : $"by {at.Ahead(b.By)}")}: ten business days after the notice came (16 CFR 429.1(g), from memory)";
}
