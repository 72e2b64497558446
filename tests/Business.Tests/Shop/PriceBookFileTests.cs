using MitigationOffice.Business.Data;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.Tests.Shop;

public sealed class PriceBookFileTests
{
    [Fact]
    public void Ten_thousand_lines_go_out_and_come_in_unchanged()
    {
        var (taken, reasons) = (Enum.GetValues<TakenBy>(), Enum.GetValues<OfferReason>());
        string[] sizes = ["", "3in", "4in", "6in"];
        var book = Enumerable.Range(0, 10_000).Select(i => new PriceItem
        {
            Code = $"C{i}", Name = i % 7 == 0 ? $"<script>alert({i})</script>, \"quoted\"" : $"Item {i}", Use = (PriceUse)(i % 2), Cost = new Money(i), MarkupPercent = i % 400 / 4m, LabourMinutes = i % 300,
            TakenBy = taken[i % taken.Length], OfferedFor = reasons[i % reasons.Length], PipeSize = reasons[i % reasons.Length] == OfferReason.LargerPipe ? "6in" : sizes[i % 4],
            FanModel = i % 5 == 0 ? "Test 9" : "", FromTier = i % 4, RecommendedFrom = i % 3 == 0 ? i / 8m : null, Retired = i % 11 == 0,
        }).ToList();
        var file = PriceBookFile.Write(book);
        var (items, problems) = PriceBookFile.Read(file);
        Assert.Empty(problems);
        Assert.Equal(10_000, items.Count);
        Assert.Equal(file, PriceBookFile.Write(items));
    }

    /// <summary>A file from before the columns: what it meant then is what it means now.</summary>
    [Fact]
    public void A_file_without_the_columns_still_reads()
    {
        var (items, problems) = PriceBookFile.Read("""
            code,name,kind,use,unit
            P,"Pipe, 4 in",material,part,ft
            F,Fitting,material,part,each
            J,Gauge,material,part,each
            C,Freeze-guard heat cable,material,addon,each
            I,Insulated outdoor pipe,material,addon,ft
            B,Condensate bypass,material,addon,each
            L,Sump lid,material,addon,each
            G,Handsome cover,material,addon,each
            """);
        Assert.Empty(problems);
        (TakenBy, int, OfferReason)[] expected =
        [
            (TakenBy.PipeFoot, 1, OfferReason.Always), (TakenBy.Fitting, 1, OfferReason.Always), (TakenBy.Job, 1, OfferReason.Always), (TakenBy.Job, 3, OfferReason.FreezeGuard),
            (TakenBy.OutdoorFoot, 3, OfferReason.Insulation), (TakenBy.Job, 2, OfferReason.CondensateBypass), (TakenBy.Job, 2, OfferReason.SumpLid), (TakenBy.Job, 0, OfferReason.Always),
        ];
        Assert.Equal(expected, items.Select(i => (i.TakenBy, i.FromTier, i.OfferedFor)));
    }

    [Theory]
    [InlineData("sideways,,,1,always,", "“taken_by” must be one of job, pipefoot")]
    [InlineData("job,9in,,1,always,", "“pipe_size” must be one of")]
    [InlineData("job,,=now(),1,always,", "“fan_model” begins with =")]
    [InlineData("job,,,4,always,", "from_tier must be between 0 and 3; you wrote 4.")]
    [InlineData("job,,,1,whim,", "“offered_for” must be one of always, freezeguard")]
    [InlineData("job,,,1,freezeguard,often", "Write the recommended_from as a number")]
    [InlineData("pipefoot,,,1,largerpipe,", "“pipe_size” is empty; a larger pipe needs its size.")]
    public void A_bad_cell_is_refused_in_words_with_its_line(string cells, string words)
    {
        var (_, problems) = PriceBookFile.Read("code,name,kind,taken_by,pipe_size,fan_model,from_tier,offered_for,recommended_from\r\nA,Good,material,job,,,1,always,\r\nB,Bad,material," + cells + "\r\n");
        var problem = Assert.Single(problems);
        Assert.StartsWith("Line 3: ", problem, StringComparison.Ordinal);
        Assert.Contains(words, problem, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Empty_cells_take_parts_into_every_choice_and_additions_into_none()
    {
        var (items, problems) = PriceBookFile.Read("code,name,kind,use,from_tier,taken_by,offered_for\r\nA,Part,material,part,,,\r\nB,Freeze cable,material,addon,,,\r\n");
        Assert.Empty(problems);
        Assert.Equal([(1, OfferReason.Always), (0, OfferReason.Always)], items.Select(i => (i.FromTier, i.OfferedFor)));
        Assert.All(items, i => Assert.Equal(TakenBy.Job, i.TakenBy));
    }

    [Fact]
    public void The_greatest_prices_do_not_wrap_around()
    {
        var item = new PriceItem { Code = "X", Name = "X", Cost = new Money(long.MaxValue / 2), MarkupPercent = 1000 };
        Assert.Throws<OverflowException>(() => item.PriceAt(Money.Zero));
    }
}
