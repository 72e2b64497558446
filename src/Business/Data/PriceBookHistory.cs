using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Data;

/// <summary>Every change of the price book becomes a version of it, in the transaction that makes it, whoever makes it.</summary>
public sealed partial class OfficeDb
{
    /// <param name="Item">Null: the price of an hour.</param>
    private sealed record BookChange(PriceItem? Item, PriceItem? Before, CompanyProfile? Company, CompanyProfile? CompanyBefore);

    private List<BookChange> BookChanges()
    {
        var changes = ChangeTracker.Entries<PriceItem>().Where(e => e.State is EntityState.Added or EntityState.Modified && (e.State == EntityState.Added || Differs(e)))
            .Select(e => new BookChange(e.Entity, e.State == EntityState.Added ? null : (PriceItem)e.OriginalValues.ToObject(), null, null)).ToList();
        if (ChangeTracker.Entries<CompanyProfile>().FirstOrDefault(e => e.State == EntityState.Modified) is { } company
            && (CompanyProfile)company.OriginalValues.ToObject() is var was && (was.LabourPricePerHour, was.LabourCostPerHour) != (company.Entity.LabourPricePerHour, company.Entity.LabourCostPerHour))
            changes.Add(new(null, null, company.Entity, was));
        return changes;
    }

    private static bool Differs(EntityEntry entry) => entry.Properties.Any(p => p.IsModified && p.Metadata.Name != nameof(Record.Version)) || entry.ComplexProperties.Any(c => c.IsModified);

    private async Task KeepBookAsync(List<BookChange> changes, bool accept, CancellationToken cancel)
    {
        await TakeTurnAsync(Turn.PriceBook, cancel);
        var company = changes.Find(c => c.Company is not null)?.Company ?? await Company.AsNoTracking().OrderBy(c => c.Id).FirstOrDefaultAsync(cancel) ?? new CompanyProfile();
        var was = changes.Find(c => c.CompanyBefore is not null)?.CompanyBefore ?? company;
        var last = await PriceBookVersions.MaxAsync(v => (int?)v.Number, cancel) ?? 0;
        PriceBookVersions.Add(new PriceBookVersion
        {
            Number = last + 1,
            AtUtc = clock.GetUtcNow().UtcDateTime,
            By = actor.Name,
            LabourPricePerHour = company.LabourPricePerHour,
            LabourCostPerHour = company.LabourCostPerHour,
            Changes = [.. changes.Select(c => c.Item is { } item ? OfItem(item, c.Before, company, was) : OfHour(company, was))],
        });
        await base.SaveChangesAsync(accept, cancel);
    }

    private static PriceChange OfHour(CompanyProfile company, CompanyProfile was) => new()
    {
        Act = PriceAct.HourChanged,
        Name = "An hour of labor",
        PriceBefore = was.LabourPricePerHour,
        Price = company.LabourPricePerHour,
        CostBefore = was.LabourCostPerHour,
        Cost = company.LabourCostPerHour,
    };

    private static PriceChange OfItem(PriceItem item, PriceItem? before, CompanyProfile company, CompanyProfile was) => new()
    {
        PriceItemId = item.Id,
        Act = before is null ? PriceAct.Added : item.Retired == before.Retired ? PriceAct.Changed : item.Retired ? PriceAct.Retired : PriceAct.BroughtBack,
        Code = item.Code,
        Name = item.Name,
        PriceBefore = before?.PriceAt(was.LabourPricePerHour) ?? Money.Zero,
        Price = item.PriceAt(company.LabourPricePerHour),
        CostBefore = before?.CostAt(was.LabourCostPerHour) ?? Money.Zero,
        Cost = item.CostAt(company.LabourCostPerHour),
        Words = before is null ? "" : string.Join("; ", Others(item, before)),
    };

    private static IEnumerable<string> Others(PriceItem item, PriceItem before)
    {
        (string Name, string Before, string After)[] fields =
        [
            ("code", before.Code, item.Code), ("name", before.Name, item.Name), ("unit", before.Unit, item.Unit), ("kind", $"{before.Kind}", $"{item.Kind}"),
            ("labor", $"{before.LabourMinutes} min", $"{item.LabourMinutes} min"), ("taxed", YesNo(before.Taxable), YesNo(item.Taxable)),
            ("counted by", $"{before.TakenBy}", $"{item.TakenBy}"), ("pipe", before.PipeSize, item.PipeSize), ("fan", before.FanModel, item.FanModel),
            ("from choice", $"{before.FromTier}", $"{item.FromTier}"), ("wanted when", $"{before.OfferedFor}", $"{item.OfferedFor}"),
            ("recommended from", Plain(before.RecommendedFrom), Plain(item.RecommendedFrom)), ("used as", $"{before.Use}", $"{item.Use}"),
        ];
        return fields.Where(f => f.Before != f.After).Select(f => $"{f.Name}: {(f.Before.Length == 0 ? "–" : f.Before)} → {(f.After.Length == 0 ? "–" : f.After)}")
            .Concat(before.Reason == item.Reason ? [] : ["the reason was reworded"])
            .Concat(before.OwnRule == item.OwnRule ? [] : [$"its rule: {(item.OwnRule.Length == 0 ? "that of its kind again" : item.OwnRule.Replace('\n', ' '))}"]);
    }

    private static string YesNo(bool value) => value ? "yes" : "no";

    private static string Plain(decimal? value) => value?.ToString("0.######", CultureInfo.InvariantCulture) ?? "";
}
