using CoatScan.Inspection;
using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Service.Batches;
using CoatScan.Storage;
using CoatScan.Storage.Photos;

namespace CoatScan.Service.Hosting;

/// <summary>
/// Loads and checks model, knowledge, store and broker before a port opens, side by side because each takes a good part of a
/// second. Anything wrong ends the start with one sentence.
/// </summary>
internal sealed class StartupCheck(IServiceProvider provider) : IHostedLifecycleService
{
    /// <inheritdoc />
    public async Task StartingAsync(CancellationToken cancellationToken)
    {
        await Task.WhenAll(
            Check("The classifier", () => provider.GetRequiredService<VisualClassifier>()),
            Check("The knowledge base", () => provider.GetRequiredService<KnowledgeBase>()),
            CheckAsync("The store", () => provider.GetRequiredService<FindingStore>().MigrateAsync(cancellationToken)),
            CheckAsync("The broker", () => provider.GetRequiredService<BatchCarrier>().CheckAsync(cancellationToken)),
            CheckAsync("The photo store", () => Task.Run(provider.GetRequiredService<PhotoStore>().Prepare, cancellationToken)))
            .ConfigureAwait(false);
        provider.GetRequiredService<PanelInspector>();
    }

    /// <inheritdoc />
    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc />
    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc />
    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc />
    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc />
    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    private static Task Check(string what, Func<object> load) => CheckAsync(what, () => Task.Run(load));

    private static async Task CheckAsync(string what, Func<Task> load)
    {
        try
        {
            await Task.Run(load).ConfigureAwait(false);
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            throw new StartupException($"{what} cannot be used: {e.Message}", e);
        }
    }
}
