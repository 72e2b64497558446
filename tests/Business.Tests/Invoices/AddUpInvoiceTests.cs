using System.Numerics;
using CsCheck;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Invoices;

namespace MitigationOffice.Business.Tests.Invoices;

public sealed class AddUpInvoiceTests
{
    private static readonly LineKind[] Kinds = [LineKind.Material, LineKind.Labour, LineKind.Subcontract, LineKind.Permit, LineKind.Other];

    private static readonly Gen<InvoiceLine> Line = Gen.Select(
        Gen.Long[0, 500_000], Gen.Int[1, 200_000], Gen.Int[0, 1000], Gen.Int[0, 4], (cents, thousandths, tenths, kind) => new InvoiceLine
        {
            Words = "x",
            UnitPrice = new Money(cents),
            Quantity = thousandths / 1000m,
            DiscountPercent = tenths / 10m,
            Kind = Kinds[kind],
        });

    private static readonly Gen<InvoiceTax> Rate = Gen.Select(Gen.Int[0, 25_000], Gen.Int[1, 31], (thousandths, mask) => new InvoiceTax
    {
        Name = "t",
        Percent = thousandths / 1000m,
        Kinds = TaxRate.Join(Kinds.Where((_, i) => (mask >> i & 1) == 1)),
    });

    /// <summary>Independent route: whole numbers of the smallest unit, never decimals. Round half away from zero of a/b for a ≥ 0 is
    /// floor((2a + b) / 2b).</summary>
    [Fact]
    public void Totals_equal_a_recomputation_in_whole_numbers_over_ten_thousand_invoices() =>
        Gen.Select(Line.Array[1, 30], Rate.Array[0, 4]).Sample((lines, rates) =>
        {
            var sums = AddUpInvoice.Of(lines, rates).Sums!;
            BigInteger net = 0, tax = 0;
            var amounts = new List<(LineKind Kind, BigInteger Cents)>();
            foreach (var l in lines)
            {
                // cents × thousandths × tenths of a percent left
                var amount = Round(l.UnitPrice.Cents * new BigInteger(l.Quantity * 1000) * new BigInteger(1000 - l.DiscountPercent * 10), 1_000_000);
                amounts.Add((l.Kind, amount));
                net += amount;
            }

            foreach (var r in rates)
            {
                BigInteger taxed = 0;
                foreach (var (kind, cents) in amounts)
                    if (r.Kinds.Contains(kind.ToString(), StringComparison.Ordinal)) taxed += cents;
                tax += Round(taxed * new BigInteger(r.Percent * 1000), 100_000);
            }

            Assert.Equal((net, tax, net + tax), (sums.Net.Cents, sums.Tax.Cents, sums.Total.Cents));
            Assert.Equal(sums.Total, lines.Select(l => l.Amount).Sum() + sums.Taxes.Select(t => t.Amount).Sum());
        }, iter: 10_000);

    [Fact]
    public void Credit_notes_in_any_parts_return_an_invoice_exactly_to_zero() =>
        Gen.Select(Line.Array[1, 20], Rate.Array[0, 4], Gen.Int[1, 5], Gen.Int[0, 1_000_000]).Sample((lines, rates, parts, seed) =>
        {
            for (var i = 0; i < lines.Length; i++) (lines[i].Id, lines[i].Position) = (i + 1, i + 1);
            var sums = AddUpInvoice.Of(lines, rates).Sums!;
            var invoice = Invoice(lines, sums);
            var (before, total, tax) = (new List<InvoiceLine>(), sums.Total, sums.Tax);
            for (var part = 0; part < parts; part++)
            {
                var chosen = lines.Where(l => (l.Id * 7919 + seed) % parts == part).ToList();
                if (chosen.Count == 0) continue;
                var credit = CreditInvoice.Opposite(invoice, before, chosen);
                before.AddRange(chosen);
                (total, tax) = (total + credit.Sums.Total, tax + credit.Sums.Tax);
                Assert.Equal(credit.Sums.Total, credit.Lines.Select(l => l.Amount).Sum() + credit.Sums.Taxes.Select(t => t.Amount).Sum());
            }

            Assert.Equal((Money.Zero, Money.Zero), (total, tax));
        }, iter: 10_000);

    /// <summary>Sales tax is carried to the third decimal and rounded up when that is over 4: Streamlined agreement text as enacted
    /// by Rhode Island and Kansas.</summary>
    [Theory]
    [InlineData(10_00, 6.85, 0_69)]
    [InlineData(1_00, 0.5, 1)]
    [InlineData(1_00, 0.499, 0)]
    public void Half_a_cent_of_tax_is_rounded_up(long cents, decimal percent, long tax) => Assert.Equal(tax, AddUpInvoice.Of([Of(cents)], [All(percent)]).Sums!.Tax.Cents);

    [Fact]
    public void Tax_is_taken_once_on_the_sum_and_not_line_by_line() => Assert.Equal(2, AddUpInvoice.Of([Of(10), Of(10), Of(10)], [All(6m)]).Sums!.Tax.Cents);

    [Fact]
    public void Ten_thousand_lines_are_refused_with_the_limit_named() =>
        Assert.Contains("at most 500 lines; this one has 10000", AddUpInvoice.Of([.. Enumerable.Range(0, 10_000).Select(_ => Of(1))], []).Problem, StringComparison.Ordinal);

    [Theory]
    [InlineData(long.MaxValue, 1)]
    [InlineData(long.MaxValue, 1_000_000_000)]
    [InlineData(1_000_000_00, 11)]
    public void Sums_that_are_too_large_are_refused_in_words(long cents, int quantity)
    {
        var line = Of(cents);
        line.Quantity = quantity;
        Assert.Contains("more than $10,000,000.00", AddUpInvoice.Of([line, Of(cents)], [All(25m)]).Problem, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(100.1)]
    public void A_discount_outside_0_to_100_percent_is_refused(decimal percent)
    {
        var line = Of(100);
        line.DiscountPercent = percent;
        Assert.Contains("between 0 and 100 %", AddUpInvoice.Of([line], []).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_deposit_is_never_taxed()
    {
        var deposit = Of(500_00);
        (deposit.Kind, deposit.Taxed) = (LineKind.Deposit, true);
        Assert.Equal(Money.Zero, AddUpInvoice.Of([deposit], [new InvoiceTax { Name = "as signed", Percent = 7 }]).Sums!.Tax);
    }

    private static InvoiceLine Of(long cents) => new() { Words = "x", UnitPrice = new Money(cents), Kind = LineKind.Material };

    private static InvoiceTax All(decimal percent) => new() { Name = "t", Percent = percent, Kinds = TaxRate.Join(Kinds) };

    private static Invoice Invoice(InvoiceLine[] lines, InvoiceSums sums) => new()
    {
        Number = "I-2026-0001",
        Subject = "x",
        IssuedBy = "x",
        PdfSha256 = "",
        PreviousHash = "",
        Hash = "",
        Lines = [.. lines],
        Taxes = [.. sums.Taxes],
        Total = sums.Total,
    };

    private static BigInteger Round(BigInteger a, BigInteger b) => (2 * a + b) / (2 * b);
}
