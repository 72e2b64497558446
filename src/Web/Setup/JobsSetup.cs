namespace MitigationOffice.Web.Setup;

public static class JobsSetup
{
    public static void AddOfficeMail(this IServiceCollection services, IConfiguration configuration, DataFolder folder)
    {
    }

    public static void AddOfficeJobs(this IServiceCollection services, IConfiguration configuration, string role)
    {
    }

    public static void MapOfficeJobs(this WebApplication app, string role)
    {
    }
}
