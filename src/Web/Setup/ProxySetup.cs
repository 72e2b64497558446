using System.Net;
using Microsoft.AspNetCore.HttpOverrides;

namespace MitigationOffice.Web.Setup;

/// <summary>Whose word is taken on where a visitor comes from: only the proxies that the setting Proxies lists.</summary>
public static class ProxySetup
{
    public static void AddProxies(this IServiceCollection services, IConfiguration configuration)
    {
        var listed = (configuration["Proxies"] ?? "").Split([',', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var networks = listed.Select(Read).ToList();
        services.Configure<ForwardedHeadersOptions>(forwarded =>
        {
            forwarded.KnownProxies.Clear();
            forwarded.KnownIPNetworks.Clear();
            foreach (var network in networks) forwarded.KnownIPNetworks.Add(network);
            forwarded.ForwardedHeaders = networks.Count > 0 ? ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto : ForwardedHeaders.None;
            forwarded.ForwardLimit = null;
        });
    }

    private static System.Net.IPNetwork Read(string text)
    {
        if (IPAddress.TryParse(text, out var address)) return new System.Net.IPNetwork(address, address.GetAddressBytes().Length * 8);
        return System.Net.IPNetwork.TryParse(text, out var network)
            ? network
            : throw new InvalidOperationException($"Proxies must list addresses like 10.0.0.2 or networks like 10.0.0.0/24, with commas between; it holds {text}.");
    }
}
