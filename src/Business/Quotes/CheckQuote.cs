using System.Globalization;
using MitigationOffice.Business.Customers;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Quotes;

/// <summary>Something a quote must hold before it may go out.</summary>
/// <param name="Field">The property it is missing from; "Company.…" and "Customer.…" are on those pages.</param>
public sealed record QuoteGap(string Words, string Field);

/// <summary>Names what is missing. What the papers must hold before the work starts: EPA Radon Mitigation Standards,
/// section 18 (as quoted by others; secondary), and the right to cancel, 16 CFR 429.</summary>
public static class CheckQuote
{
    public static IReadOnlyList<QuoteGap> Gaps(QuoteRevision revision, CompanyProfile company, Customer customer, IReadOnlyList<Licence> licences, DateOnly today) =>
        [.. Company(company), .. Expired(licences, today), .. Texts(revision), .. CheckPromise.Gaps(revision), .. Prices(revision), .. CheckMoney.Gaps(revision), .. CheckPromise.PhaseGaps(revision, today), .. Days(revision, today), .. Reach(customer)];

    /// <summary>Of each holder's licences from one office the one that ends last counts.</summary>
    private static IEnumerable<QuoteGap> Expired(IReadOnlyList<Licence> licences, DateOnly today) =>
        from l in licences
        group l by (Holder: l.Holder.Trim().ToUpperInvariant(), Office: l.IssuedBy.Trim().ToUpperInvariant()) into held
        where held.All(l => l.ExpiresOn < today)
        let last = held.MaxBy(l => l.ExpiresOn)
        orderby last.Id
        select new QuoteGap($"The licence {last.Number} of {last.Holder} ended on {HouseTime.Show(last.ExpiresOn)}. Enter its renewal, or take it out if it is no longer held.", "Shop.Licences");

    /// <summary>What may be as it is and is worth a look before it goes out.</summary>
    public static IReadOnlyList<QuoteGap> Advice(QuoteRevision r) => [.. Advices(r)];

    private static readonly string[] Chemicals = ["cement", "primer", "solvent", "sealant", "adhesive", "caulk", "foam", "chemical"];

    private static IEnumerable<QuoteGap> Advices(QuoteRevision r)
    {
        if (r.SuctionDesignId is null) yield return new("No design stands behind this quote, so its paper has no drawing.", "House.Design");
        if (r.GuaranteePCiL == 0) yield return new("No radon level is guaranteed; say in the promise what is.", nameof(r.GuaranteePCiL));
        if (Empty(r.Terms)) yield return new("The terms of payment are empty.", nameof(r.Terms));
        if (Empty(r.WhyRecommended)) yield return new("Nothing says why that choice is recommended.", nameof(r.WhyRecommended));
        if (r.FanLifeYears == 0) yield return new("How long a fan lasts is not filled in, so the cost of owning replaces none.", nameof(r.FanLifeYears));
        if (r.Tiers.Find(t => t.Position == r.RecommendedTier) is { SuctionDesignId: not null } own) yield return new($"“{own.Name}” is recommended and stands on a design of its own; read once more why.", nameof(r.WhyRecommended));
        foreach (var (one, next) in r.Tiers.OrderBy(t => t.Position).Zip(r.Tiers.OrderBy(t => t.Position).Skip(1)))
            if (Same(one, next)) yield return new($"“{one.Name}” and “{next.Name}” hold the same lines.", nameof(r.Tiers));
    }

    private static bool Same(QuoteTier one, QuoteTier other) => one.Lines.Count > 0 &&
        one.Lines.Select(l => (l.Words, l.Quantity, l.UnitPrice)).Order().SequenceEqual(other.Lines.Select(l => (l.Words, l.Quantity, l.UnitPrice)).Order());

    private static IEnumerable<QuoteGap> Company(CompanyProfile company)
    {
        if (Empty(company.Name)) yield return new("The company's name is not filled in.", "Company.Name");
        if (Empty(company.CertificationNumber)) yield return new("The certification number is not filled in; the customer must have it in writing before the work starts.", "Company.CertificationNumber");
        if (Empty(company.Street) || Empty(company.City)) yield return new("The company's address is not filled in; the cancellation form names it.", "Company.Street");
    }

    private static IEnumerable<QuoteGap> Texts(QuoteRevision r)
    {
        if (Empty(r.Answers)) yield return new("Say which radon result this quote answers.", nameof(r.Answers));
        if (Empty(r.Scope)) yield return new("Write the scope: what is done in the house.", nameof(r.Scope));
        if (Empty(r.TimeNeeded)) yield return new("Write how long the work takes.", nameof(r.TimeNeeded));
        if (Empty(r.OwnersPart)) yield return new("Write what the owner of the house must look after.", nameof(r.OwnersPart));
        if (Empty(r.Promise)) yield return new("Write what is promised, and on which conditions.", nameof(r.Promise));
        if (Empty(r.Cautions)) yield return new("Write the cautions, chemicals used among them.", nameof(r.Cautions));
        else if (!Chemicals.Any(c => r.Cautions.Contains(c, StringComparison.OrdinalIgnoreCase))) yield return new("The cautions name no chemical that is used: cement, primer, sealant.", nameof(r.Cautions));
        if (Empty(r.CancellationNotice) && Empty(r.NoCancelNoticeBecause))
            yield return new("Write the right-to-cancel notice, or why it is left out.", nameof(r.CancellationNotice));
    }

    private static IEnumerable<QuoteGap> Prices(QuoteRevision r)
    {
        if (r.ElectricityPerYear <= Money.Zero) yield return new("Write what the system costs to run in a year.", nameof(r.ElectricityPerYear));
        if (r.Tiers.Count == 0) yield return new("The quote holds nothing to choose from.", nameof(r.Tiers));
        foreach (var tier in r.Tiers.OrderBy(t => t.Position))
        {
            if (tier.Lines.Count == 0) yield return new($"“{tier.Name}” has no lines.", nameof(r.Tiers));
            else if (tier.Lines.Select(l => l.Amount).Sum() <= Money.Zero) yield return new($"“{tier.Name}” has no price.", nameof(r.Tiers));
            if (tier.SuctionDesignId is null) continue;
            if (Empty(tier.Scope)) yield return new($"“{tier.Name}” stands on a design of its own: write what is done in it.", $"Tiers_{tier.Position - 1}__Scope");
            if (tier.ElectricityPerYear <= Money.Zero) yield return new($"“{tier.Name}” stands on a design of its own: write what it costs to run in a year.", $"Tiers_{tier.Position - 1}__ElectricityPerYear");
        }

        if (r.Tiers.SelectMany(t => t.Lines).Select(l => l.Words).Distinct(StringComparer.Ordinal).Count() is > SideBySide.MostRows and var rows)
            yield return new(string.Create(CultureInfo.InvariantCulture, $"The choices hold {rows:#,0} different lines; {SideBySide.MostRows} are the most that a quote’s paper takes. Put together lines that belong together."), nameof(r.Tiers));
        if (r.Tiers.All(t => t.Position != r.RecommendedTier)) yield return new("Choose which of them is recommended.", nameof(r.RecommendedTier));
        foreach (var addOn in r.AddOns.Where(a => Empty(a.Reason))) yield return new($"Say why “{addOn.Words}” is offered.", nameof(r.AddOns));
    }

    private static IEnumerable<QuoteGap> Days(QuoteRevision r, DateOnly today)
    {
        if (r.ValidUntil is null) yield return new("Write until when the quote holds.", nameof(r.ValidUntil));
        else if (r.ValidUntil < today) yield return new("The day until which the quote holds is past.", nameof(r.ValidUntil));
    }

    private static IEnumerable<QuoteGap> Reach(Customer customer)
    {
        if (!MailAddress.IsUsable(customer.Email)) yield return new($"{customer.Name} has no e-mail address that the quote can be sent to.", "Customer.Email");
    }

    private static bool Empty(string text) => string.IsNullOrWhiteSpace(text);
}
