using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Texture;
using CoatScan.Metrics.Zones;

namespace CoatScan.Metrics.Features;

/// <summary>Direction, fine pattern, sharpness, highlights and the split into two colors.</summary>
internal static class StructureFeatures
{
    internal static void Write(FeatureScene scene, FeatureWriter writer)
    {
        WriteDirection(scene, writer);
        LocalPattern.Write(scene.Lab.Lightness, writer);
        WriteSharpness(scene, writer);
        WriteColors(scene, writer);
    }

    private static void WriteDirection(FeatureScene scene, FeatureWriter writer)
    {
        var fine = StructureTensor.Measure(scene.Lab.Lightness, 3.0);
        var coarse = StructureTensor.Measure(scene.Lab.Lightness, 8.0);
        writer.Add("direction_fine", fine.Coherence);
        writer.Add("direction_coarse", coarse.Coherence);
        writer.Add("direction_global", coarse.GlobalCoherence);

        // Cosine of twice the angle: 1 for structure that runs up and down, -1 for level structure.
        var twice = 2.0 * coarse.AngleDegrees * Math.PI / 180.0;
        writer.Add("direction_upright", coarse.GlobalCoherence * Math.Cos(twice));
    }

    private static void WriteSharpness(FeatureScene scene, FeatureWriter writer)
    {
        var sharpness = PhotoSharpness.Measure(scene.Lab.Lightness);
        writer.Add("sharpness_blur", sharpness?.EdgeBlurPx ?? PhotoSharpness.LargestBlurPx);
        writer.AddLog("sharpness_edges", (sharpness?.EdgePixels ?? 0) / (double)scene.Clipped.Length, 1e-4);
        writer.AddLog("laplacian", Math.Sqrt(LaplacianVariance.Measure(scene.LogLuminance)), 1e-3);
        var highlight = scene.Highlight;
        writer.Add("highlight_found", highlight is null ? 0.0 : 1.0);
        writer.Add("highlight_softness", highlight?.Softness ?? 0.5);
    }

    private static void WriteColors(FeatureScene scene, FeatureWriter writer)
    {
        var colors = scene.Colors;
        writer.Add("two_colors_distance", colors.Distance / 100.0);
        writer.Add("two_colors_lightness", (colors.Second.L - colors.First.L) / 100.0);
        writer.Add("two_colors_chroma", (colors.Second.Chroma - colors.First.Chroma) / 100.0);
        writer.Add("two_colors_warmth", (colors.Second.B - colors.First.B) / 100.0);
        writer.Add("two_colors_smaller_share", colors.SmallerShare);
        writer.Add("two_colors_separation", colors.Distance / (colors.Distance + (4.0 * colors.Scatter) + 1.0));
        var cool = RustColor.CoolWarmth(scene.Panel);
        writer.Add("warmth_of_coolest", cool / 100.0);
        writer.AddLog("rust_share", RustColor.Fraction(scene.Panel, cool), 1e-3);
    }
}
