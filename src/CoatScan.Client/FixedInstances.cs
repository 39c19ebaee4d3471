using Grpc.Net.Client.Balancer;

namespace CoatScan.Client;

/// <summary>Tells a channel the instances of a service, which are known and do not change.</summary>
internal sealed class FixedInstances(IReadOnlyCollection<Uri> addresses) : IServiceProvider
{
    /// <summary>What a channel is opened to.</summary>
    public const string Target = "static:///coatscan";

    private readonly ResolverFactory[] _factories =
        [new StaticResolverFactory(_ => [.. addresses.Select(address => new BalancerAddress(address.Host, address.Port))])];

    /// <inheritdoc/>
    public object? GetService(Type serviceType) => serviceType == typeof(IEnumerable<ResolverFactory>) ? _factories : null;
}
