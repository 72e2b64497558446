using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;

namespace MitigationOffice.Web.Pages.Shared;

/// <summary>What stands around every sheet of a house: its index with a word on each sheet, and the title block.
/// One query.</summary>
public sealed record HouseHead(int Id, string Address, string For, int CustomerId, IReadOnlyList<HouseHead.Sheet> Sheets)
{
    public sealed record Sheet(int Number, string Name, string Word, string Href);

    /// <summary>Which sheet is shown (1 to 8), its revision and its date, for the title block.</summary>
    public int Shown { get; init; }
    /// <summary>Name of a page that stands beside the eight sheets; then none of them is shown.</summary>
    public string? Beside { get; init; }
    public string Revision { get; init; } = "–";
    public string Date { get; init; } = "–";

    public static async Task<HouseHead?> LoadAsync(OfficeDb db, int houseId, int shown)
    {
        var h = await db.Houses.AsNoTracking().Where(x => x.Id == houseId).Select(x => new
        {
            x.Street,
            x.Street2,
            x.City,
            x.State,
            x.Zip,
            x.AskedAtUtc,
            Owner = x.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => new { o.CustomerId, o.Customer!.Name }).FirstOrDefault(),
            Diagnosis = db.PressureFieldTests.Where(t => t.HouseId == x.Id).Max(t => (DateOnly?)t.Day),
            Design = db.Designs.Where(d => d.HouseId == x.Id).OrderByDescending(d => d.Id).Select(d => d.Revision).FirstOrDefault(),
            Quote = db.QuoteRevisions.Where(r => r.Quote!.HouseId == x.Id).OrderByDescending(r => r.Id).Select(r => new { r.Letter, r.State }).FirstOrDefault(),
            Job = db.Jobs.Where(j => j.HouseId == x.Id).OrderByDescending(j => j.Id).Select(j => new { j.State, j.Day, j.DoneOn }).FirstOrDefault(),
            Test = db.RadonTests.Where(t => t.HouseId == x.Id).OrderByDescending(t => t.StartedAtUtc).Select(t => new { t.Outcome, t.DecidingPCiL }).FirstOrDefault(),
            NextReminder = db.Reminders.Where(r => r.HouseId == x.Id && r.State == Business.FollowUp.ReminderState.Planned).Min(r => (DateOnly?)r.DueOn),
            Papers = db.Documents.Count(d => d.HouseId == x.Id),
        }).AsSingleQuery().FirstOrDefaultAsync();
        if (h is null) return null;
        var address = $"{h.Street}{(h.Street2.Length == 0 ? "" : ", " + h.Street2)}, {h.City}, {h.State} {h.Zip}";
        return new HouseHead(houseId, address, h.Owner?.Name ?? "–", h.Owner?.CustomerId ?? 0,
        [
            At(1, "Inquiry", Day(DateOnly.FromDateTime(h.AskedAtUtc)), "inquiry"),
            At(2, "Diagnosis", h.Diagnosis is { } d ? Day(d) : "–", "diagnosis"),
            At(3, "Design", h.Design is null ? "–" : $"revision {h.Design}", "design"),
            At(4, "Quote", h.Quote is null ? "–" : $"{h.Quote.Letter}, {Word(h.Quote.State)}", "quote"),
            At(5, "Work", h.Job is null ? "–" : h.Job.DoneOn is { } done ? $"done {Day(done)}" : h.Job.Day is { } day ? Day(day) : "to plan", "work"),
            At(6, "Proof", h.Test is null ? "–" : h.Test.DecidingPCiL is { } r ? $"{Math.Round(r, 1, MidpointRounding.AwayFromZero):0.0} pCi/L" : "devices out", "proof"),
            At(7, "Follow-up", h.NextReminder is { } next ? Day(next) : "–", "follow-up"),
            At(8, "Papers", h.Papers switch { 0 => "–", 1 => "1 file", _ => $"{h.Papers} files" }, "papers"),
        ])
        { Shown = shown };

        Sheet At(int number, string name, string word, string path) => new(number, name, word, $"/houses/{houseId}/{path}");
    }

    private static string Day(DateOnly day) => day.ToString("MMM d, yyyy", System.Globalization.CultureInfo.InvariantCulture);

    private static string Word(Enum value) => Setup.Forms.Words.Of(value).ToLowerInvariant();
}
