using CoatScan.Findings;

namespace CoatScan.Imaging;

/// <summary>Turns received bytes into pixels, or refuses them with a reason.</summary>
public interface IPhotoDecoder
{
    /// <summary>Decodes one still photo.</summary>
    /// <param name="bytes">The photo as it was received.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <returns>The pixels; the caller disposes them.</returns>
    /// <exception cref="CoatScanException">The photo is refused; the reason is one of those that begin with Photo.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    DecodedPhoto Decode(ReadOnlyMemory<byte> bytes, CancellationToken cancellationToken);
}
