using CoatScan.Metrics.Quality;

namespace CoatScan.Metrics.Features;

/// <summary>Distribution of lightness, chroma and hue.</summary>
internal static class ColorFeatures
{
    internal static void Write(FeatureScene scene, FeatureWriter writer)
    {
        var lightness = new ValueHistogram(0.0f, 100.0f, 1000);
        var chroma = new ValueHistogram(0.0f, 150.0f, 1500);
        lightness.Add(scene.Lab.Lightness.Values);
        var a = scene.Lab.AStar.Values;
        var b = scene.Lab.BStar.Values;
        var (sumA, sumB, sumChroma, sumSquares) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < a.Length; i++)
        {
            var c = MathF.Sqrt((a[i] * a[i]) + (b[i] * b[i]));
            chroma.Add(c);
            sumA += a[i];
            sumB += b[i];
            sumChroma += c;
            sumSquares += (double)(a[i] * a[i]) + (b[i] * b[i]);
        }

        var (meanA, meanB) = (sumA / a.Length, sumB / a.Length);
        var median = lightness.Quantile(0.5);
        writer.Add("lightness_median", median / 100.0);
        writer.Add("lightness_low_tail", (median - lightness.Quantile(0.02)) / 100.0);
        writer.Add("lightness_low_quarter", (median - lightness.Quantile(0.25)) / 100.0);
        writer.Add("lightness_high_quarter", (lightness.Quantile(0.75) - median) / 100.0);
        writer.Add("lightness_high_tail", (lightness.Quantile(0.98) - median) / 100.0);
        writer.Add("chroma_median", chroma.Quantile(0.5) / 100.0);
        writer.Add("chroma_low", chroma.Quantile(0.1) / 100.0);
        writer.Add("chroma_high", chroma.Quantile(0.95) / 100.0);
        writer.Add("a_mean", meanA / 100.0);
        writer.Add("b_mean", meanB / 100.0);

        // 1 if every pixel has one hue, 0 if hues cancel.
        writer.Add("hue_agreement", Math.Sqrt((sumA * sumA) + (sumB * sumB)) / (sumChroma + a.Length));
        var variance = (sumSquares / a.Length) - (meanA * meanA) - (meanB * meanB);
        writer.AddLog("color_scatter", Math.Sqrt(Math.Max(0.0, variance)), 0.1);
    }
}
