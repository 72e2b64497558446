using MitigationOffice.Business.Data;
using MitigationOffice.Business.Documents.Drawing;
using MitigationOffice.Business.Quotes;
using MitigationOffice.Business.Quotes.Papers;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Tests.Quotes;

/// <summary>An invented quote with three choices, for tests of its paper and the benchmark of making it.</summary>
internal static class SampleQuote
{
    public static readonly DateTime At = new(2026, 3, 2, 15, 0, 0, DateTimeKind.Utc);

    public const string Suction = "Suction point and pipe to above the roof";

    public static Picture Section { get; } = HouseSection.Draw(new HouseFacts { Name = "14 Larkspur Hill", Basement = true, Route = [new(RoutePlace.Outdoors, 5, "4 in")], FanPlace = RoutePlace.Outdoors, FanWords = "Sparrow 18" });

    private static readonly CompanyProfile Company = new()
    {
        Name = "Lantern Ridge Radon",
        Street = "8 Quarry Lane",
        City = "Birchford",
        State = "MN",
        Zip = "55999",
        Phone = "555-0100",
        Email = "office@lanternridge.example",
        CertificationNumber = "TEST-001",
    };

    public static QuoteOnPaper Make(int lines = 4, string words = Suction)
    {
        var revision = new QuoteRevision
        {
            Letter = "A",
            Answers = "The radon test of Oct 20, 2025 (basement): 9.6 pCi/L.",
            ValidUntil = new DateOnly(2026, 4, 1),
            TaxPercent = 6.875m,
            DepositPercent = 30,
            Scope = "A pit, a pipe, a fan.",
            ElectricityPerYear = Money.FromDollars(23),
            RecommendedTier = 2,
            WhyRecommended = "Moist soil gas freezes in the outdoor pipe.",
        };
        QuoteTexts.Fill(revision, Company);
        foreach (var (name, position) in new[] { ("Sound", 1), ("Sure", 2), ("Through every winter", 3) })
            revision.Tiers.Add(new QuoteTier
            {
                Name = name,
                Position = position,
                Lines = [.. Enumerable.Range(1, lines + position - 1).Select(i => new QuoteLine { Position = i, Words = i == 1 ? words : $"Part number {i}", Quantity = i == 2 ? 24 : 1, Unit = i == 2 ? "ft" : "each", UnitPrice = new Money(12_34 * i), Taxable = i % 2 == 0, PriceItemId = i })],
            });
        revision.AddOns.Add(new QuoteAddOn { Position = 1, Words = "Second alarm on the ground floor", Reason = "The first cannot be heard upstairs.", Price = Money.FromDollars(95), Taxable = true });
        return new(revision, "Q-2026-0001", "14 Larkspur Hill, Birchford, MN 55999", "Rosalind Quill", Company, At, new DateOnly(2026, 3, 2));
    }
}
