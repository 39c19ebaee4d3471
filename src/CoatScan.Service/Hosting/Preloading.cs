using CoatScan.Classification;
using CoatScan.Diagnosis;

namespace CoatScan.Service.Hosting;

/// <summary>
/// Reads model and knowledge, which take most of the start, while the routes are made. What is wrong with them <see cref="StartupCheck"/> says,
/// which asks for them again. A start that fails for another reason waits for the reading: a process that ends in the middle of it lets the
/// runtime of the network complain on the error stream.
/// </summary>
internal sealed class Preloading(IServiceProvider provider) : IAsyncDisposable
{
    private readonly Task _reading = Task.WhenAll(
        Task.Run(provider.GetService<VisualClassifier>), Task.Run(provider.GetService<KnowledgeBase>));

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await _reading.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
}
