using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.FollowUp;

public sealed class MessagesModel(OfficeDb db) : PageModel
{
    private const int PageRows = 50;

    [BindProperty(SupportsGet = true)]
    public DeliveryState? State { get; set; }

    [BindProperty(SupportsGet = true)]
    public string? Find { get; set; }

    /// <summary>Only messages older than this one: the next page.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Before { get; set; }

    public IReadOnlyList<MessageRow> Rows { get; private set; } = [];
    public bool More { get; private set; }
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public async Task OnGetAsync()
    {
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        var rows = await Wanted().Take(PageRows + 1).Select(MessageRow.Of).ToListAsync();
        (Rows, More) = ([.. rows.Take(PageRows)], rows.Count > PageRows);
    }

    public async Task<IActionResult> OnGetCsvAsync() => Sheet.Csv(
        "messages.csv", ["Number", "To", "Address", "About", "Class", "State", "Written (UTC)", "Sent (UTC)", "Answer"],
        (await Wanted().Select(MessageRow.Of).ToListAsync()).Select(m => (string[])
        [
            m.Id.ToString(CultureInfo.InvariantCulture), m.ToName, m.ToAddress, m.Subject, m.Class.ToString(), m.Words,
            m.CreatedAtUtc.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture), m.SentAtUtc?.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture) ?? "", m.LastAnswer,
        ]));

    private IQueryable<OutboxMessage> Wanted()
    {
        var wanted = db.Outbox.AsNoTracking();
        if (State is { } state) wanted = wanted.Where(m => m.State == state);
        if (Before is { } id) wanted = wanted.Where(m => m.Id < id);
        if (Find?.Trim().ToLowerInvariant() is { Length: > 0 } words)
#pragma warning disable CA1304, CA1311, CA1862 // Becomes lower() in SQL: no culture is involved, and no overload of the comparison is translated.
            wanted = wanted.Where(m => m.ToAddress.Contains(words) || m.ToName.ToLower().Contains(words) || m.Subject.ToLower().Contains(words));
#pragma warning restore CA1304, CA1311, CA1862
        return wanted.OrderByDescending(m => m.Id);
    }
}
