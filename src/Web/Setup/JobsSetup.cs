using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Setup;

public static class JobsSetup
{
    public static void AddOfficeMail(this IServiceCollection services, IConfiguration configuration, DataFolder folder)
    {
        var mail = configuration.GetSection("Mail").Get<MailSettings>() ?? new MailSettings();
        var address = configuration["PublicAddress"] ?? "http://localhost:5080";
        if (!Uri.TryCreate(address.TrimEnd('/') + "/", UriKind.Absolute, out var publicAddress) || publicAddress.Scheme is not ("http" or "https"))
            throw new InvalidOperationException($"PublicAddress must be an address like https://office.example; it is {address}.");
        services.AddSingleton(mail with { PublicAddress = publicAddress });
    }

    public static void AddOfficeJobs(this IServiceCollection services, IConfiguration configuration, string role)
    {
    }

    public static void MapOfficeJobs(this WebApplication app, string role)
    {
    }
}
