using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Business.Tests.Invoices;

public sealed class TaxesOfDayTests
{
    private static readonly DateOnly Day = new(2026, 3, 2);

    private static TaxRate Rate(string name, LineKind kind, DateOnly from, DateOnly? to = null) => new() { Id = name.Length, Name = name, Percent = 7, Kinds = $"{kind}", ValidFrom = from, ValidTo = to };

    [Fact]
    public void Only_rates_that_hold_on_the_day_and_tax_a_kind_at_hand_are_due()
    {
        TaxRate[] rates = [Rate("now", LineKind.Material, Day, Day), Rate("later", LineKind.Material, Day.AddDays(1)), Rate("labour", LineKind.Labour, Day.AddYears(-1))];
        var (taxes, problems) = TaxesOfDay.Of(rates, [LineKind.Material, LineKind.Permit], Day);
        Assert.Empty(problems);
        Assert.Equal(["now"], taxes.Select(t => t.Name));
    }

    [Fact]
    public void A_kind_whose_rate_has_ended_is_refused_in_words()
    {
        var (_, problems) = TaxesOfDay.Of([Rate("County", LineKind.Material, Day.AddYears(-2), Day.AddDays(-1))], [LineKind.Material], Day);
        Assert.StartsWith("Material was taxed by “County” until Mar 1, 2026; no rate for it holds on Mar 2, 2026.", Assert.Single(problems), StringComparison.Ordinal);
    }

    [Fact]
    public void A_rate_that_follows_another_ends_the_question()
    {
        TaxRate[] rates = [Rate("old", LineKind.Material, Day.AddYears(-2), Day.AddDays(-1)), Rate("newer", LineKind.Material, Day)];
        Assert.Equal("newer", Assert.Single(TaxesOfDay.Of(rates, [LineKind.Material], Day).Taxes).Name);
    }

    [Fact]
    public void A_kind_that_was_never_taxed_is_not_asked_about() => Assert.Empty(TaxesOfDay.Of([], [LineKind.Labour], Day).Problems);
}
