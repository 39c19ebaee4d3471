using System.Globalization;
using CoatScan.Metrics.Texture;

namespace CoatScan.Metrics.Features;

/// <summary>Energy of luminance and of the two color axes by wavelength.</summary>
internal static class BandFeatures
{
    private const int LuminanceBands = 5;
    private const int ColorBands = 3;
    private const double ContrastFloor = 1e-3;
    private const double ColorFloor = 0.05;

    internal static void Write(FeatureScene scene, FeatureWriter writer)
    {
        using var scope = new PlaneScope();
        var bands = new OctaveBands(scene.LogLuminance, scene.Clipped, scope);
        WriteLuminance(bands.MeasurePixelBands(LuminanceBands), writer);
        WriteColor(scene, scene.Lab.AStar, "a", writer);
        WriteColor(scene, scene.Lab.BStar, "b", writer);
    }

    private static void WriteLuminance(IReadOnlyList<BandReading?> readings, FeatureWriter writer)
    {
        for (var i = 0; i < LuminanceBands; i++)
        {
            var name = Name("luminance", i);
            var reading = readings[i];
            writer.AddLog(name + "_median", reading?.MedianRms ?? 0.0, ContrastFloor);
            writer.AddLog(name + "_mean", reading?.MeanRms ?? 0.0, ContrastFloor);

            // High where the texture sits in few places: marks, not a finish.
            writer.AddLog(
                name + "_patchiness",
                (reading?.HighRms ?? 0.0) / ((reading?.MedianRms ?? 0.0) + ContrastFloor),
                0.1);
        }
    }

    private static void WriteColor(FeatureScene scene, Plane plane, string axis, FeatureWriter writer)
    {
        using var scope = new PlaneScope();
        var readings = new OctaveBands(plane, scene.Clipped, scope).MeasurePixelBands(ColorBands);
        for (var i = 0; i < ColorBands; i++)
        {
            writer.AddLog(Name(axis, i) + "_mean", readings[i]?.MeanRms ?? 0.0, ColorFloor);
        }
    }

    private static string Name(string plane, int band) => string.Create(
        CultureInfo.InvariantCulture, $"band_{plane}_{4 << band}_{8 << band}");
}
