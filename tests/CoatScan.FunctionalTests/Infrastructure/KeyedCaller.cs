using System.Net.Http.Headers;
using Grpc.Net.Client;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Somebody who sends a credential with every call.</summary>
internal sealed class KeyedCaller : IDisposable
{
    public KeyedCaller(RunningServer server, string credential)
    {
        Channel = GrpcChannel.ForAddress(server.GrpcAddress, new GrpcChannelOptions { HttpClient = Client(credential), DisposeHttpClient = true });
        Http = Client(credential);
        Http.BaseAddress = server.Http.BaseAddress;
    }

    public GrpcChannel Channel { get; }

    public HttpClient Http { get; }

    public V1.FindingService.FindingServiceClient Findings => new(Channel);

    public V1.BatchService.BatchServiceClient Batches => new(Channel);

    public V1.KnowledgeService.KnowledgeServiceClient Knowledge => new(Channel);

    public V1.PhotoService.PhotoServiceClient Photos => new(Channel);

    public void Dispose()
    {
        Channel.Dispose();
        Http.Dispose();
    }

    private static HttpClient Client(string credential)
    {
        var client = new HttpClient();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", credential);
        return client;
    }
}
