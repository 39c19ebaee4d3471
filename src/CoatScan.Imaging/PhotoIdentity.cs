namespace CoatScan.Imaging;

/// <summary>What tells a photo apart from others, without measuring it.</summary>
/// <param name="MediaType"><c>image/jpeg</c> or <c>image/png</c>, from the content.</param>
/// <param name="WidthPx">Width after orientation, pixels.</param>
/// <param name="HeightPx">Height after orientation, pixels.</param>
/// <param name="CaptureTime">As the camera wrote it, ISO 8601; null if it wrote none.</param>
/// <param name="PictureHash">The hash of the picture; null if it is too flat or too small to have one.</param>
public sealed record PhotoIdentity(string MediaType, int WidthPx, int HeightPx, string? CaptureTime, ulong? PictureHash);
