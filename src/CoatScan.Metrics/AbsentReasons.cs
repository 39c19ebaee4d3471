namespace CoatScan.Metrics;

/// <summary>Reasons that several metrics share.</summary>
internal static class AbsentReasons
{
    internal const string NoScale = "no scale: millimeters per pixel are unknown";

    internal const string Blurred = "the photo is too blurred";
}
