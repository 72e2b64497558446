using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Design;
using MitigationOffice.Business.Houses;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Phases;
using MitigationOffice.Business.Shop;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Setup.Demo;

/// <summary>Plays one house from its inquiry to the stage it has reached, on the days on which each act would have come.</summary>
internal sealed class DemoPath(OfficeDb db, DemoClock clock, Actor actor, MailSettings mail)
{
    private CompanyProfile _company = new();
    private DateTimeOffset _now;

    public async Task PlayAsync(DemoHouse demo, DateTimeOffset now, CancellationToken cancel)
    {
        db.ChangeTracker.Clear();
        _company = await db.Company.AsNoTracking().SingleAsync(cancel);
        _now = now;
        var house = await InquireAsync(demo);
        if (demo.Stage == DemoStage.Inquiry) return;
        var test = await DiagnoseAsync(demo, house);
        if (demo.Stage == DemoStage.Diagnosed) return;
        var design = await DesignAsync(demo, house, test);
        if (demo.Stage == DemoStage.Designed) return;
        var quote = await DraftAsync(demo, house, design);
        if (demo.Stage == DemoStage.QuoteDraft) return;
        var token = await SendAsync(demo, quote);
        if (token is null || demo.Stage is DemoStage.QuoteSent or DemoStage.QuoteRevised) return;
        if (demo.Stage == DemoStage.Declined) await DeclineAsync(token);
        else await new DemoWork(db, clock, actor, _company, mail, _now).PlayAsync(demo, house.Id, design, await AcceptAsync(demo, quote, token), On);
    }

    /// <summary>Sets the clock to some days after the inquiry, in the middle of a working day, never past now.</summary>
    private void On(DemoHouse demo, int day, string who)
    {
        var at = _now.AddDays(day - demo.DaysAgo);
        var noon = HouseTime.ToUtc(HouseTime.DayOf(at.UtcDateTime, HouseTime.Zone(_company.TimeZone)), new TimeOnly(13, 10), HouseTime.Zone(_company.TimeZone));
        clock.At = noon < _now.UtcDateTime ? noon : _now;
        actor.Name = who;
    }

    private async Task<House> InquireAsync(DemoHouse demo)
    {
        On(demo, 0, "Bram Oster");
        var today = DateOnly.FromDateTime(clock.Utc);
        var house = new House
        {
            Street = demo.Street, City = _company.City, County = "Birch County", State = _company.State, Zip = _company.Zip, YearBuilt = demo.Year, StoreysAboveGrade = demo.Storeys,
            Building = demo.Business.Length > 0 ? BuildingKind.Office : BuildingKind.SingleFamily, Sump = demo.Sump, VermiculiteSuspected = demo.Vermiculite, UnderTrees = demo.UnderTrees,
            YearsInUse = demo.YearsInUse, Heating = "forced air, gas", AskedAtUtc = clock.Utc, Areas = DemoPlans.Areas(demo),
            EarlierTests = [new EarlierTest { PCiL = demo.PCiL, Room = demo.Room, Device = "activated charcoal", StartedOn = today.AddDays(-12), EndedOn = today.AddDays(-9), MadeBy = "mail-in kit" }],
            Appliances = demo.NaturalDraft ? [new Appliance { Name = "Water heater", Draft = Draft.Natural, Place = "utility room" }] : [],
        };
        var address = demo.Customer.ToLowerInvariant().Split(' ')[0].Normalize(System.Text.NormalizationForm.FormD).Where(char.IsAsciiLetter);
        DemoPlans.Draw(demo, house);
        var customer = new Customer
        {
            Kind = demo.Business.Length > 0 ? CustomerKind.Business : CustomerKind.Person, Name = demo.Customer, ContactName = demo.Business,
            Email = demo.NoEmail ? "" : $"{new string([.. address])}@house.example", Phone = $"(218) 555-{101 + await db.Customers.CountAsync():0000}", // 555-0100 to 0199 are kept for invented people
        };
        var taken = await TakeInquiry.RunAsync(db, house, customer, today, new EvenSo(true, true));
        return taken.House!;
    }

    private async Task<int> DiagnoseAsync(DemoHouse demo, House house)
    {
        On(demo, Math.Min(2, demo.DaysAgo), "Cleo Marsh");
        var first = await ReadAsync(demo, house, second: false);
        if (demo.Plan?.SecondPit is not null) await ReadAsync(demo, house, second: true);
        return first;
    }

    private async Task<int> ReadAsync(DemoHouse demo, House house, bool second)
    {
        var fans = await db.Fans.ToDictionaryAsync(f => f.Model, f => f.Id);
        var test = DemoReadings.Test(demo, house.Id, DateOnly.FromDateTime(clock.Utc), 12, model => fans[model], second);
        db.Add(test);
        await db.SaveChangesAsync();
        db.AddRange(DemoReadings.Readings(demo, test, second));
        await db.SaveChangesAsync();
        return test.Id;
    }

    private async Task<SuctionDesign> DesignAsync(DemoHouse demo, House house, int testId)
    {
        On(demo, Math.Min(3, demo.DaysAgo), "Ada Quill");
        var design = new SuctionDesign
        {
            HouseId = house.Id, PressureFieldTestId = testId, Revision = await CopyDesign.NextAsync(db, house.Id), TargetPa = _company.TargetSuctionPa, Pieces = DemoReadings.Route(demo),
            DischargeAboveGradeM = demo.Route == "attic" ? 3 + 2.7 * demo.Storeys : 0.6 + 2.7 * demo.Storeys, OpeningDistanceM = 3.6, AboveOpeningTopM = 1.2, AboveRoofM = 0.4,
        };
        if (demo.Plan?.SecondPit is { } pit)
        {
            var own = await db.PressureFieldTests.Where(t => t.HouseId == house.Id && t.Id != testId).Select(t => t.Id).SingleAsync();
            design.Branches.Add(new SuctionBranch { Number = 1, Name = pit.Place, PressureFieldTestId = own, JoinsAfterPiece = 2 });
            design.Pieces.AddRange(DemoReadings.Branch());
        }

        db.Add(design);
        await db.SaveChangesAsync();
        var result = await ComputeDesign.StoreAsync(db, design, clock);
        var model = result.Report?.RecommendedFan ?? throw new InvalidOperationException($"{demo.Street}: {result.Refusal ?? result.Report?.Recommendation}");
        design.FanId = await db.Fans.Where(f => f.Model == model).Select(f => (int?)f.Id).SingleAsync();
        await db.SaveChangesAsync();
        await ComputeDesign.StoreAsync(db, design, clock);
        return design;
    }

    private async Task<QuoteRevision> DraftAsync(DemoHouse demo, House house, SuctionDesign design)
    {
        On(demo, Math.Min(4, demo.DaysAgo), "Ada Quill");
        var draft = (await DraftQuote.ForHouseAsync(db, house.Id, design.Id, clock))!;
        draft.Phase = new QuotePhase
        {
            Level = 4.0m, Scope = "A second suction point on the far side of the slab, joined to the same pipe, with its hole sealed and the fan checked again",
            Price = Money.FromDollars(640m), Cost = Money.FromDollars(340m), LabourMinutes = 240, ValidUntil = draft.ValidUntil!.Value.AddYears(1),
        };
        if (demo.OtherRoute.Length > 0) await OtherRouteAsync(demo with { Route = demo.OtherRoute, OtherRoute = "" }, house, design, draft);
        await db.SaveChangesAsync();
        return draft;
    }

    private async Task OtherRouteAsync(DemoHouse demo, House house, SuctionDesign first, QuoteRevision draft)
    {
        var other = await DesignAsync(demo, house, first.PressureFieldTestId!.Value);
        await TakeFromDesign.IntoAsync(db, draft, house.Id, 3, other.Id, await ComputedDesign.OfAsync(db, other.Id, clock));
    }

    private async Task<string?> SendAsync(DemoHouse demo, QuoteRevision revision)
    {
        On(demo, Math.Min(5, demo.DaysAgo), "Ada Quill");
        if (demo.NoEmail) await LendAddressAsync(revision, "by-hand@house.example");
        var sent = await SendQuote.NowAsync(db, revision.Id, revision.Version, Letterhead.Of(_company, mail), clock, actor.Name);
        if (sent.Token is null) throw new InvalidOperationException($"{demo.Street}: {sent.Problem}{string.Join(' ', sent.Gaps.Select(g => g.Words))}");
        if (demo.NoEmail) await LendAddressAsync(revision, "");
        if (demo.Stage != DemoStage.QuoteRevised) return sent.Token;
        On(demo, Math.Min(9, demo.DaysAgo), "Ada Quill");
        var next = await ReviseQuote.NextAsync(db, revision.QuoteId, clock) ?? throw new InvalidOperationException($"{demo.Street}: the quote cannot be revised.");
        return (await SendQuote.NowAsync(db, next.Id, next.Version, Letterhead.Of(_company, mail), clock, actor.Name)).Token;
    }

    /// <summary>One owner signed at the office's own screen and has no address since; the quote still needs one to go out.</summary>
    private async Task LendAddressAsync(QuoteRevision revision, string address)
    {
        var customerId = await db.Quotes.Where(q => q.Id == revision.QuoteId).Select(q => q.CustomerId).SingleAsync();
        (await db.Customers.SingleAsync(c => c.Id == customerId)).Email = address;
        await db.SaveChangesAsync();
    }

    private Task<OfferState> DeclineAsync(string token)
    {
        actor.Name = "a visitor";
        clock.At = clock.At.AddDays(6);
        return CloseQuote.DeclineAsync(db, token, "A neighbour does it for less.", clock, LostBecause.Price);
    }

    private async Task<int> AcceptAsync(DemoHouse demo, QuoteRevision revision, string token)
    {
        var daysOut = demo.DaysAgo < 6 ? 0 : 2;
        clock.At = clock.At.AddDays(daysOut) is var later && later < _now ? later : _now;
        actor.Name = "a visitor";
        var full = await db.QuoteRevisions.AsNoTracking().Include(r => r.Tiers).Include(r => r.AddOns).SingleAsync(r => r.Id == revision.Id);
        var codes = await db.PriceItems.Where(p => demo.AddOns.Contains(p.Code)).Select(p => p.Id).ToListAsync();
        var tier = full.Tiers.Single(t => t.Position == demo.Tier);
        var open = PriceQuote.OpenTo(tier, full.AddOns).Where(a => a.PriceItemId is { } id && codes.Contains(id)).Select(a => a.Id).ToList();
        var outcome = await AcceptQuote.ByLinkAsync(db, token, new Signature(tier.Id, open, demo.Business.Length > 0 ? demo.Business : demo.Customer, true, true, "127.0.0.1", "demo"), Letterhead.Of(_company, mail), clock);
        return outcome.State == OfferState.Accepted ? outcome.AcceptanceId : throw new InvalidOperationException($"{demo.Street}: {outcome.State}");
    }
}
