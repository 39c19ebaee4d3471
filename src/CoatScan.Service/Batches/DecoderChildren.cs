using CoatScan.Imaging.Children;

namespace CoatScan.Service.Batches;

/// <summary>The child processes of this service, if it has any; they end with it.</summary>
internal sealed class DecoderChildren(ChildDecoders? decoders) : IDisposable
{
    /// <summary>Decodes in child processes; null if that is not asked for.</summary>
    public ChildDecoders? Decoders => decoders;

    /// <inheritdoc />
    public void Dispose() => decoders?.Dispose();
}
