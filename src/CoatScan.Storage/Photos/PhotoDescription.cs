namespace CoatScan.Storage.Photos;

/// <summary>What is known about a photo when it is stored, beside its bytes.</summary>
/// <param name="MediaType">Found from the content, for example <c>image/jpeg</c>.</param>
/// <param name="WidthPx">Width after orientation, pixels.</param>
/// <param name="HeightPx">Height after orientation, pixels.</param>
public sealed record PhotoDescription(string MediaType, int WidthPx, int HeightPx)
{
    /// <summary>Millions of pixels.</summary>
    public double Megapixels => WidthPx * (double)HeightPx / 1e6;

    /// <summary>The caller's name of the photo, text only; empty if not given.</summary>
    public string DisplayName { get; init; } = "";

    /// <summary>Capture time as the camera wrote it, ISO 8601; null if the photo carries none.</summary>
    public string? CaptureTime { get; init; }

    /// <summary>The 64 bits of the perceptual hash; null for a picture too flat to have one.</summary>
    public ulong? PerceptualHash { get; init; }
}
