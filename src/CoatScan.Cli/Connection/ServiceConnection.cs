using CoatScan.Cli.Text;
using CoatScan.Client;
using CoatScan.Service.Hosting;
using CoatScan.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace CoatScan.Cli.Connection;

/// <summary>
/// An open connection to the service. Both kinds, a server and the service inside this process, are spoken to over
/// gRPC, so that there is one code path.
/// </summary>
internal sealed class ServiceConnection : IAsyncDisposable
{
    private readonly EmbeddedService? _embedded;
    private readonly GrpcChannel _channel;

    private ServiceConnection(EmbeddedService? embedded, GrpcChannel channel, string where)
    {
        _embedded = embedded;
        _channel = channel;
        Where = where;
        Findings = new(channel);
        Knowledge = new(channel);
        SprayDay = new(channel);
        Photos = new(channel);
        Batches = new(channel);
    }

    /// <summary>Makes findings.</summary>
    public FindingService.FindingServiceClient Findings { get; }

    /// <summary>Tells what the service knows.</summary>
    public KnowledgeService.KnowledgeServiceClient Knowledge { get; }

    /// <summary>Says whether and how to spray.</summary>
    public SprayDayService.SprayDayServiceClient SprayDay { get; }

    /// <summary>Takes photos in.</summary>
    public PhotoService.PhotoServiceClient Photos { get; }

    /// <summary>Grades batches.</summary>
    public BatchService.BatchServiceClient Batches { get; }

    /// <summary>Versions and limits of the service.</summary>
    public ServerInfo Info { get; private set; } = new();

    /// <summary>The service, in words.</summary>
    public string Where { get; }

    /// <summary>Connects, and starts the service inside this process if no server is chosen.</summary>
    /// <exception cref="CommandException">The service does not answer or cannot be started.</exception>
    public static async Task<ServiceConnection> OpenAsync(ServiceChoice choice, CancellationToken cancellationToken)
    {
        var connection = choice.Server is { } server
            ? new ServiceConnection(null, Channel(server, choice.Credential), $"the service at {server}")
            : await StartAsync(UserFolder.Choose(choice.DataFolder), choice.GradeBatches, cancellationToken);
        try
        {
            connection.Info = await connection.AskInfoAsync(cancellationToken);
            return connection;
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    /// <summary>When a call without a photo gives up.</summary>
    public static DateTime ControlDeadline() =>
        TimeProvider.System.GetUtcNow().UtcDateTime + CoatScanChannel.ControlDeadline;

    /// <summary>When a call with photos gives up.</summary>
    public static DateTime PhotoDeadline() =>
        TimeProvider.System.GetUtcNow().UtcDateTime + CoatScanChannel.PhotoDeadline;

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        _channel.Dispose();
        if (_embedded is not null)
        {
            await _embedded.DisposeAsync();
        }
    }

    private static GrpcChannel Channel(Uri server, string? credential)
    {
        try
        {
            return CoatScanChannel.ForAddress(server, credential);
        }
        catch (ArgumentException refusal)
        {
            throw CommandException.Usage(refusal.Message);
        }
    }

    private static async Task<ServiceConnection> StartAsync(
        string dataFolder, bool gradeBatches, CancellationToken cancellationToken)
    {
        EmbeddedService embedded;
        try
        {
            embedded = await EmbeddedService.StartAsync(dataFolder, gradeBatches, cancellationToken);
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            // Whatever keeps the service from starting (folder, store, model): the user needs a sentence, not a stack.
            throw CommandException.Unreachable(
                $"The service could not start with its data in '{dataFolder}': {OneLine(failure.Message)}", failure);
        }

        return new(embedded, CoatScanChannel.ForSocket(embedded.SocketPath), "the service inside this command");
    }

    private async Task<ServerInfo> AskInfoAsync(CancellationToken cancellationToken)
    {
        try
        {
            return await Knowledge.GetServerInfoAsync(
                new GetServerInfoRequest(), deadline: ControlDeadline(), cancellationToken: cancellationToken);
        }
        catch (RpcException failure)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (failure.StatusCode is StatusCode.Unauthenticated or StatusCode.PermissionDenied)
            {
                throw CommandException.Unreachable(
                    $"{Phrase.Capital(Where)} refuses: {ServiceError.Of(failure).Message} Give the key with --key-file.", failure);
            }

            throw CommandException.Unreachable(
                failure.StatusCode == StatusCode.DeadlineExceeded && _embedded is not null
                    ? "The service inside this command did not get to an answer in time. Try again when this machine is less busy."
                : failure.StatusCode is StatusCode.Unavailable or StatusCode.DeadlineExceeded
                    ? $"No answer from {Where}. Is it running, and is this its gRPC port? 'coatscan serve' starts one."
                    : $"{Phrase.Capital(Where)} is no gRPC port of CoatScan ({failure.StatusCode}).",
                failure);
        }
    }

    private static string OneLine(string text) => text.ReplaceLineEndings(" ").Trim();
}
