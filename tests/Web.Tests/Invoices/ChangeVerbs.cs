using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices.Changes;
using MitigationOffice.Business.Work;

namespace MitigationOffice.Web.Tests.Invoices;

/// <summary>A change order with its job and sale; the token once it is out.</summary>
public sealed record ChangeAtHand(SignedSale Sale, int JobId, int ChangeId, string Token = "")
{
    public string Path => $"/offer/change/{Token}";
    public string Sheet => $"/houses/{Sale.HouseId}/work/changes/{ChangeId}";
}

/// <summary>Ways to bring a signed quote to a change order and further.</summary>
public static class ChangeVerbs
{
    public static async Task<ChangeAtHand> BegunChangeAsync(this OfficeApp office, SignedSale? of = null)
    {
        var sale = of ?? await office.SignedSaleAsync();
        var job = (await office.WithDbAsync(db => OpenJob.RunAsync(db, sale.AcceptanceId, office.Clock)))!.Value;
        var begun = await office.WithDbAsync(db => DraftChange.BeginAsync(db, job, office.Clock.GetUtcNow().UtcDateTime, "Cleo Marsh"));
        Assert.Empty(begun.Refusals);
        return new(sale, job, begun.ChangeOrderId);
    }

    /// <summary>One line added for $200.00, taxed, unless other lines are given.</summary>
    public static async Task<ChangeAtHand> DraftedChangeAsync(this OfficeApp office, SignedSale? of = null, params ChangeLine[] lines)
    {
        var change = await office.BegunChangeAsync(of);
        var version = await office.VersionAsync(change.ChangeId);
        var saved = await office.WithDbAsync(db => DraftChange.SaveAsync(db, change.ChangeId, version, "Water stands under the slab; the pit needs a sealed lid.", "Half a day more.", lines.Length > 0 ? lines : [Added()]));
        Assert.Empty(saved.Refusals);
        return change;
    }

    public static ChangeLine Added(decimal dollars = 200, string words = "Sealed lid over the pit") => new() { Kind = ChangeKind.Added, Words = words, UnitPrice = Money.FromDollars(dollars), Priced = true, Taxable = true };

    public static async Task<ChangeAtHand> SentChangeAsync(this OfficeApp office, SignedSale? of = null, params ChangeLine[] lines) =>
        await office.SendChangeAsync(await office.DraftedChangeAsync(of, lines));

    public static async Task<ChangeAtHand> SendChangeAsync(this OfficeApp office, ChangeAtHand change, string? handedBy = null)
    {
        var version = await office.VersionAsync(change.ChangeId);
        var sent = await office.WithDbAsync(async db => await SendChange.RunAsync(db, change.ChangeId, version, handedBy, await Quotes.QuoteVerbs.LetterheadAsync(office, db), office.Clock.GetUtcNow().UtcDateTime, "Bram Oster"));
        Assert.True(sent.Token is not null, string.Join(' ', sent.Refusals.Select(r => r.Words)));
        return change with { Token = sent.Token! };
    }

    public static async Task<ChangeOutcome> SignChangeAsync(this OfficeApp office, ChangeAtHand change, string name = "Rosalind Quill") => await office.WithDbAsync(async db =>
        await SignChange.ByLinkAsync(db, change.Token, new(name, true, true, "192.0.2.7", "test"), await Quotes.QuoteVerbs.LetterheadAsync(office, db), office.Clock));

    public static Task<ChangeOrder> ChangeAsync(this OfficeApp office, int id) => office.WithDbAsync(db => db.ChangeOrders.AsNoTracking().Include(c => c.Lines).SingleAsync(c => c.Id == id));

    public static Task<int> VersionAsync(this OfficeApp office, int id) => office.WithDbAsync(db => db.ChangeOrders.Where(c => c.Id == id).Select(c => c.Version).SingleAsync());
}
