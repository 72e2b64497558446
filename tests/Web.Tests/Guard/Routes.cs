using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.Infrastructure;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.RazorPages.Infrastructure;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace MitigationOffice.Web.Tests.Guard;

/// <summary>A page as the running program knows it: its address pattern, what guards it, and its handlers ("GET", "GET Csv", "POST Send").</summary>
public sealed record PageRoute(string Page, string Pattern, bool Open, IReadOnlyList<string> Policies, IReadOnlyList<string> Handlers)
{
    public IEnumerable<string> Named(string method) => Handlers.Where(h => h.StartsWith(method, StringComparison.Ordinal)).Select(h => h[method.Length..].Trim());
}

/// <summary>Reads the pages and other endpoints out of the running program, so that none can be added past the tests.</summary>
public static class Routes
{
    public static async Task<IReadOnlyList<PageRoute>> PagesAsync(this OfficeApp office)
    {
        var loader = office.Services.GetRequiredService<PageLoader>();
        var found = new List<PageRoute>();
        foreach (var page in office.Services.GetRequiredService<IActionDescriptorCollectionProvider>().ActionDescriptors.Items.OfType<PageActionDescriptor>())
        {
            var loaded = await loader.LoadAsync(page, EndpointMetadataCollection.Empty);
            var marks = new EndpointMetadataCollection(loaded.EndpointMetadata!);
            found.Add(new PageRoute(
                page.ViewEnginePath,
                page.AttributeRouteInfo!.Template!,
                marks.GetMetadata<IAllowAnonymous>() is not null,
                [.. marks.GetOrderedMetadata<IAuthorizeData>().Select(a => a.Policy ?? "").Where(p => p.Length > 0).Distinct()],
                [.. loaded.HandlerMethods.Select(h => $"{h.HttpMethod.ToUpperInvariant()} {h.Name}".Trim()).Distinct().Order(StringComparer.Ordinal)]));
        }

        return found;
    }

    /// <summary>The endpoints that are no pages.</summary>
    public static IEnumerable<RouteEndpoint> OtherEndpoints(this OfficeApp office) => office.Services.GetServices<EndpointDataSource>()
        .SelectMany(s => s.Endpoints).OfType<RouteEndpoint>().Where(e => e.Metadata.GetMetadata<PageActionDescriptor>() is null);
}
