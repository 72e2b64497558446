using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;

namespace MitigationOffice.Web.Tests.Design;

[Trait("Database", "either")]
public sealed class MaterialsTests(OfficeApp office) : IClassFixture<OfficeApp>
{
    /// <summary>8 ft up, 6 ft across, a wall, 16 ft up outdoors: 30 ft; 33 ft with waste → 4 lengths; supports 1 + 1 + 2; one joint in the last run.</summary>
    [Fact]
    public async Task The_crew_reads_what_the_design_takes_and_no_price()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        await office.WithDbAsync(async db =>
        {
            db.PriceItems.Add(new Business.Shop.PriceItem { Code = $"G{house}", Name = "U-tube manometer, marked", FromTier = 1, Cost = Business.Data.Money.FromDollars(7431) });
            await db.SaveChangesAsync();
        });
        var crew = await office.SignInAsInstallerAsync();
        Assert.Contains($"/houses/{house}/design/materials?revision=A", await crew.GetStringAsync($"/houses/{house}/design"), StringComparison.Ordinal);
        var text = await crew.TextAsync($"/houses/{house}/design/materials");
        foreach (var words in new[] { "Pipe, 4 in", "drawn, 16 ft of it outdoors", "with 10 % for waste", "Coupling, 4 in", "Through an outer wall, 4 in", "Soft coupling, 4 in", "U-tube manometer, marked", "EPA 402-R-93-078", "silica" })
            Assert.Contains(words, text, StringComparison.Ordinal);
        Assert.DoesNotContain("$", text, StringComparison.Ordinal);
        Assert.DoesNotContain("7,431", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_is_taken_as_a_file_for_a_spreadsheet()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        var crew = await office.SignInAsInstallerAsync();
        var bytes = await crew.GetByteArrayAsync($"/houses/{house}/design/materials?handler=Csv&revision=A");
        Assert.Equal(Encoding.UTF8.Preamble.ToArray(), bytes[..3]);
        var lines = Encoding.UTF8.GetString(bytes[3..]).Split("\r\n");
        Assert.Equal("What,Quantity,Unit,How it was counted", lines[0]);
        Assert.Contains("\"Pipe, 4 in\",30,ft,\"drawn, 16 ft of it outdoors\"", lines);
        Assert.Contains(lines, l => l.StartsWith("\"Pipe, 4 in, to buy\",4,lengths of 10 ft,", StringComparison.Ordinal));
        Assert.Contains(lines, l => l.StartsWith("\"Hanger or strap, 4 in\",4,each,", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Names_that_are_code_are_only_names()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        const string hostile = "<svg onload=x>{{7*7}}'";
        await office.WithDbAsync(async db =>
        {
            db.PriceItems.Add(new Business.Shop.PriceItem { Code = $"H{house}", Name = hostile, FromTier = 1 });
            db.PriceItems.Add(new Business.Shop.PriceItem { Code = $"E{house}", Name = "=HYPERLINK(1)", FromTier = 1 });
            await db.SaveChangesAsync();
        });
        var crew = await office.SignInAsInstallerAsync();
        Assert.DoesNotContain("<svg onload", await crew.GetStringAsync($"/houses/{house}/design/materials"), StringComparison.Ordinal);
        Assert.Contains(hostile, await crew.TextAsync($"/houses/{house}/design/materials"), StringComparison.Ordinal);
        Assert.Contains("'=HYPERLINK(1),1,each,for every job", await crew.GetStringAsync($"/houses/{house}/design/materials?handler=Csv"), StringComparison.Ordinal);
        await office.WithDbAsync(db => db.PriceItems.Where(i => i.Code == $"H{house}" || i.Code == $"E{house}").ExecuteDeleteAsync());
    }

    [Fact]
    public async Task A_house_or_revision_that_does_not_exist_is_not_found()
    {
        var (house, _) = await office.HouseWithDesignAsync();
        var crew = await office.SignInAsInstallerAsync();
        foreach (var path in new[] { "/houses/999999/design/materials", $"/houses/{house}/design/materials?revision=Q", $"/houses/{house}/design/materials?handler=Csv&revision=Q" })
            Assert.Equal(HttpStatusCode.NotFound, (await crew.GetAsync(path)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await office.Visitor().GetAsync($"/houses/{house}/design/materials")).StatusCode);
    }
}
