using System.Globalization;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Lines;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Features;

/// <summary>Blobs at several radii, ridges at several widths, and the pattern of the lines.</summary>
internal static class MarkFeatures
{
    private const double ResponseFloor = 0.02;

    // Larger blobs are sought at this radius on a smaller plane.
    private const int LargestDirectRadiusPx = 4;

    private static readonly int[] BlobRadiiPx = [2, 4, 8, 16];
    private static readonly int[] RidgeSigmasPx = [1, 2, 4];

    internal static void Write(FeatureScene scene, FeatureWriter writer)
    {
        using var scope = new PlaneScope();
        var histogram = new ValueHistogram(-60.0f, 60.0f, 12_000);
        foreach (var radius in BlobRadiiPx)
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"blob_{radius}");
            var shrink = Math.Max(1, radius / LargestDirectRadiusPx);
            var plane = scope.Rent(Math.Max(1, scene.Width / shrink), Math.Max(1, scene.Height / shrink));
            AreaReduction.Apply(scene.Lab.Lightness, plane);
            var sigma = BlobFilter.SigmaOfRadius((double)radius / shrink);
            var response = BlobFilter.Apply(plane, sigma, scope);
            WriteTails(name, response, histogram, writer);
            scope.Return(response);
        }

        foreach (var sigma in RidgeSigmasPx)
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"ridge_{sigma}");
            var response = RidgeFilter.Apply(scene.Lab.Lightness, sigma, scope);
            WriteTails(name, response, histogram, writer);
            scope.Return(response);
        }

        WriteSpots(scene, writer);
        WriteLines(scene, writer);
    }

    /// <summary>Typical response, how far the dark and bright tails reach beyond it, and how much lies in them.</summary>
    private static void WriteTails(string name, Plane response, ValueHistogram histogram, FeatureWriter writer)
    {
        histogram.Clear();
        histogram.Add(response.Values);
        var scatter = (0.7413 * (histogram.Quantile(0.75) - histogram.Quantile(0.25))) + ResponseFloor;
        writer.AddLog(name + "_typical", scatter, 0.0);
        writer.AddLog(name + "_dark_tail", Math.Max(0.0, histogram.Quantile(0.99)) / scatter, 0.1);
        writer.AddLog(name + "_bright_tail", Math.Max(0.0, -histogram.Quantile(0.01)) / scatter, 0.1);
        var limit = (float)(4.0 * scatter);
        var (dark, bright) = (0, 0);
        foreach (var value in response.Values)
        {
            dark += value > limit ? 1 : 0;
            bright += value < -limit ? 1 : 0;
        }

        writer.AddLog(name + "_dark_share", (double)dark / response.Values.Length, 1e-4);
        writer.AddLog(name + "_bright_share", (double)bright / response.Values.Length, 1e-4);
    }

    private static void WriteSpots(FeatureScene scene, FeatureWriter writer)
    {
        var spots = SpotFinder.Find(scene.Lab.Lightness, scene.Clipped);
        var (small, large, dark, area) = (0, 0, 0, 0L);
        foreach (var spot in spots)
        {
            small += spot.DiameterPx < 6.0 ? 1 : 0;
            large += spot.DiameterPx >= 6.0 ? 1 : 0;
            dark += spot.ContrastLightness < 0.0 ? 1 : 0;
            area += spot.AreaPx;
        }

        writer.AddLog("spots_small", small, 1.0);
        writer.AddLog("spots_large", large, 1.0);
        writer.Add("spots_dark_balance", (dark - 0.5 * spots.Count) / (spots.Count + 4.0));
        writer.AddLog("spots_area", (double)area / scene.Clipped.Length, 1e-4);
    }

    private static void WriteLines(FeatureScene scene, FeatureWriter writer)
    {
        using var scope = new PlaneScope();
        var lines = scene.Width < 8 || scene.Height < 8
            ? null
            : LineReading.Of(LineFinder.Find(scene.Lab.Lightness, scope));
        var (length, count, junctions) = (lines?.LengthPx ?? 0.0, lines?.Lines.Count ?? 0, lines?.Junctions ?? 0);
        writer.AddLog("lines_density", length / ((double)scene.Width * scene.Height), 1e-4);
        writer.AddLog("lines_junctions", junctions, 1.0);
        writer.Add("lines_junctions_per_branch", junctions / (count + 3.0));
        writer.Add("lines_coherence", 1.0 - (lines?.Directions.LocalSpread?.Value ?? 1.0));
        writer.Add("lines_straightness", lines?.Shapes.Straightness.Value ?? 0.0);
        writer.AddLog("lines_branch_length", length / Math.Max(1, count), 1.0);
    }
}
