using System.Diagnostics;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Service;
using MitigationOffice.Business.Work;
using MitigationOffice.Web.Tests.Messages;
using MitigationOffice.Web.Tests.Work;

namespace MitigationOffice.Web.Tests.Calendar;

/// <summary>Runs where the system's Python has the icalendar library (Debian: python3-icalendar).</summary>
public sealed class SecondReaderFactAttribute : FactAttribute
{
    /// <summary>The system's own Python, where its packages are; another one in the path may not have them.</summary>
    internal static string Python => File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3";

    public SecondReaderFactAttribute()
    {
        if (!RealServer.Runs(Python, "-c", "import icalendar")) Skip = "Needs python3 with the icalendar library (Debian: python3-icalendar).";
    }
}

/// <summary>The feed as another library reads it: Python's icalendar beside Ical.Net, which writes it.</summary>
[Trait("Database", "either")]
public sealed class SecondReaderTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    private sealed record Read(string Version, string[] Errors, Dictionary<string, string>[] Events);

    [SecondReaderFact]
    public async Task Another_library_reads_the_days_and_finds_the_same_entries_again_after_a_move_and_a_cancellation()
    {
        var (house, jobId) = await office.HouseWithJobAsync(h => h.Street = "7 Łąkowa „Weiß“ 🏠; a, b \\ with a name so long that its line has to be folded somewhere in the middle");
        var desk = await office.SignInAsOfficeAsync();
        var (token, cleo) = await office.WithDbAsync(async db =>
        {
            var person = await db.Users.Where(u => u.FullName == "Cleo Marsh").Select(u => u.Id).SingleAsync();
            var (secret, hash) = Business.Data.PrivateLink.Make();
            db.CalendarLinks.Add(new CalendarLink { PersonId = person, TokenHash = hash, CreatedAtUtc = OfficeApp.Start.UtcDateTime });
            await db.SaveChangesAsync();
            return (secret, $"p{person}");
        });
        Assert.Equal(FeedState.Live, (await office.WithDbAsync(db => CalendarFeed.FindAsync(db, token))).State);
        var url = $"/houses/{house.HouseId}/work";
        const string Plan = "form[action*='handler=Plan']";

        // The clocks go back in the night to November 1, 2026: 8 in the morning is 13:00 UTC on October 30 and 14:00 UTC on November 2.
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "10/30/2026", ["Input.Days[0].ArriveAt"] = "8 am", ["Input.Days[0].Who"] = cleo, ["Input.Days[1].Day"] = "11/3/2026", ["Input.Days[1].Who"] = cleo }, Plan);
        var before = (await ReadAsync(token)).OrderBy(e => e["DTSTART"], StringComparer.Ordinal).ToList();
        Assert.Equal(2, before.Count);
        Assert.Equal(("20261030T130000Z", "20261030T210000Z"), (before[0]["DTSTART"], before[0]["DTEND"]));
        Assert.Equal(("20261103", "20261104"), (before[1]["DTSTART"], before[1]["DTEND"]));
        Assert.Equal($"{(await office.JobAsync(jobId)).Number} · {house.Street}, Birchford", before[0]["SUMMARY"]);
        Assert.All(before, e => Assert.Equal(("0", "CONFIRMED"), (e.GetValueOrDefault("SEQUENCE", "0"), e["STATUS"])));

        office.Clock.Advance(TimeSpan.FromMinutes(5));
        await desk.SubmitAsync(url, new() { ["Input.Days[0].Day"] = "11/2/2026", ["Input.Days[1].Day"] = "" }, Plan);
        var after = (await ReadAsync(token)).ToDictionary(e => e["UID"]);
        Assert.Equal(before.Select(e => e["UID"]).Order(StringComparer.Ordinal), after.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(("20261102T140000Z", "1", "CONFIRMED"), (after[before[0]["UID"]]["DTSTART"], after[before[0]["UID"]]["SEQUENCE"], after[before[0]["UID"]]["STATUS"]));
        Assert.Equal(("20261103", "1", "CANCELLED"), (after[before[1]["UID"]]["DTSTART"], after[before[1]["UID"]]["SEQUENCE"], after[before[1]["UID"]]["STATUS"]));
        Assert.True(string.CompareOrdinal(after[before[0]["UID"]]["DTSTAMP"], before[0]["DTSTAMP"]) > 0, "The moved day is not stamped later.");
    }

    private async Task<Dictionary<string, string>[]> ReadAsync(string token)
    {
        var file = Path.Combine(office.Folder, "feed.ics");
        await File.WriteAllBytesAsync(file, await office.Visitor().GetByteArrayAsync($"/calendar/{token}.ics"));
        using var python = Process.Start(RealServer.Order(SecondReaderFactAttribute.Python, Path.Combine(AppContext.BaseDirectory, "Calendar", "read_calendar.py"), file))!;
        var said = python.StandardOutput.ReadToEndAsync();
        Assert.Equal("", await python.StandardError.ReadToEndAsync());
        var read = JsonSerializer.Deserialize<Read>(await said, JsonSerializerOptions.Web)!;
        Assert.Empty(read.Errors);
        Assert.Equal("2.0", read.Version);
        return read.Events;
    }
}
