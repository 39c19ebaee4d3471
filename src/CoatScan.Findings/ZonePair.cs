namespace CoatScan.Findings;

/// <summary>Two zones of one photo whose colors are to be compared.</summary>
/// <param name="First">The zone that differences are taken from.</param>
/// <param name="Second">The zone that is compared with it.</param>
public sealed record ZonePair(PhotoZone First, PhotoZone Second);
