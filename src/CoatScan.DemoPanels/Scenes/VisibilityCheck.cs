using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>
/// Whether a person could see the fault: the same panel is shaded with and without it and compared in display values. A
/// label that nobody could confirm by looking would teach the classifier to guess.
/// </summary>
internal static class VisibilityCheck
{
    // Large faults are judged by a sparser sample: some ten thousand points either way.
    private const int FineStride = 2;
    private const int CoarseStride = 5;
    private const int LargeFaultPx = 40_000;

    /// <summary>12 of 255 levels: about three just noticeable steps on a plain surface (a project convention).</summary>
    private const float SeenDifference = 0.05f;

    /// <summary>90th percentile of the difference over the fault's pixels, and how many pixels differ visibly.</summary>
    /// <param name="scene">Light and camera.</param>
    /// <param name="sound">The panel before the fault was painted.</param>
    /// <param name="faulty">The panel with it.</param>
    public static (float Contrast, int SeenPx) Compare(PanelScene scene, PanelSurface sound, PanelSurface faulty)
    {
        var stride = CountCovered(faulty) > LargeFaultPx ? CoarseStride : FineStride;
        var gain = scene.Camera.Exposure(MeanLuminance(scene, faulty));
        var histogram = new int[256];
        int total = 0, seen = 0;
        for (var y = 1; y < faulty.Height - 1; y += stride)
        {
            for (var x = 1; x < faulty.Width - 1; x += stride)
            {
                var at = (y * faulty.Width) + x;
                if (faulty.Defect.Values[at] < 0.5f || (scene.InsidePx is { } inside && inside.Values[at] < 3f))
                {
                    continue;
                }

                var before = scene.Shader.At(sound, x, y) * gain;
                var after = scene.Shader.At(faulty, x, y) * gain;
                var difference = MathF.Max(
                    Change(before.R, after.R), MathF.Max(Change(before.G, after.G), Change(before.B, after.B)));
                histogram[Math.Min(255, (int)(difference * 256f))]++;
                total++;
                seen += difference > SeenDifference ? 1 : 0;
            }
        }

        return (Percentile(histogram, total, 0.9f), seen * stride * stride);
    }

    private static int CountCovered(PanelSurface surface)
    {
        var count = 0;
        foreach (var coverage in surface.Defect.Values)
        {
            count += coverage >= 0.5f ? 1 : 0;
        }

        return count;
    }

    private static float Change(float before, float after) =>
        MathF.Abs(ToneCurve.Encode(before, 0f) - ToneCurve.Encode(after, 0f));

    private static float MeanLuminance(PanelScene scene, PanelSurface surface)
    {
        float sum = 0f;
        var count = 0;
        for (var y = 8; y < surface.Height; y += 16)
        {
            for (var x = 8; x < surface.Width; x += 16)
            {
                sum += MathF.Min(1.2f, scene.Shader.At(surface, x, y).Luminance);
                count++;
            }
        }

        return sum / count;
    }

    private static float Percentile(int[] histogram, int total, float share)
    {
        var left = total * (1f - share);
        for (var bin = histogram.Length - 1; bin > 0; bin--)
        {
            left -= histogram[bin];
            if (left <= 0f)
            {
                return total == 0 ? 0f : bin / 256f;
            }
        }

        return 0f;
    }
}
