using CoatScan.Metrics;

namespace CoatScan.Imaging.Normalizing;

/// <summary>Linear light at working size, oriented, still in the photo's own primaries.</summary>
internal sealed record ReducedPhoto(Plane Red, Plane Green, Plane Blue, bool[] Clipped, double OriginalPxPerPx);
