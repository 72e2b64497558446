using Microsoft.Extensions.DependencyInjection;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Tests.Setup;

/// <summary>Links in mail and on labels must lead back to the program.</summary>
[Trait("Database", "either")]
public sealed class PublicAddressTests
{
    [Theory]
    [InlineData("http://localhost:5177", null, "http://localhost:5177/")]
    [InlineData("http://0.0.0.0:8080;http://127.0.0.1:5178", null, "http://127.0.0.1:5178/")]
    [InlineData("http://0.0.0.0:8080", null, "http://localhost:5080/")]
    [InlineData("http://127.0.0.1:0", null, "http://localhost:5080/")]
    [InlineData("http://localhost:5177", "https://office.lanternridge.example", "https://office.lanternridge.example/")]
    public async Task Links_name_what_is_set_else_the_address_on_this_machine_that_is_listened_on(string urls, string? set, string links)
    {
        var office = new OfficeApp { Settings = { ["urls"] = urls } };
        if (set is not null) office.Settings["PublicAddress"] = set;
        await office.InitializeAsync();
        try
        {
            Assert.Equal(links, office.Services.GetRequiredService<MailSettings>().PublicAddress.AbsoluteUri);
        }
        finally
        {
            await office.DisposeAsync();
        }
    }
}
