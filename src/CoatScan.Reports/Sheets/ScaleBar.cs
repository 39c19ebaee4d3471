namespace CoatScan.Reports;

/// <summary>A bar of a round length in the lower left corner of a photo.</summary>
/// <param name="Shapes">What is drawn, in pixels of the photo.</param>
/// <param name="Label">Its length in words.</param>
internal sealed record ScaleBar(IReadOnlyList<Shape> Shapes, string Label)
{
    private const double MostOfWidth = 0.3;

    /// <summary>The bar for a photo.</summary>
    /// <param name="mmPerPx">Scale of the photo.</param>
    /// <param name="widthPx">Width of the photo.</param>
    /// <param name="heightPx">Height of the photo.</param>
    /// <param name="letters">Height of the letters, pixels.</param>
    /// <param name="words">Words of the language.</param>
    public static ScaleBar Of(double mmPerPx, int widthPx, int heightPx, double letters, SheetWords words)
    {
        double lengthMm = Round(MostOfWidth * widthPx * mmPerPx);
        double lengthPx = lengthMm / mmPerPx;
        string label = string.Create(words.Format.Marks, $"{lengthMm:0.###} mm");
        double left = letters;
        double bottom = heightPx - letters;
        double thick = letters * 0.25;
        (double X, double Y)[] bar =
            [(left, bottom - thick), (left + lengthPx, bottom - thick), (left + lengthPx, bottom), (left, bottom)];
        double plate = Math.Max(lengthPx, letters * label.Length * 0.62);
        double pad = letters * 0.35;
        return new(
            [
                new Stroke(
                    [
                        (left - pad, bottom - thick - (1.5 * letters)), (left + plate + pad, bottom - thick - (1.5 * letters)),
                        (left + plate + pad, bottom + pad), (left - pad, bottom + pad),
                    ],
                    IsClosed: true) { Line = 0, Fill = 1, Thickness = letters * 0.05 },
                new Stroke(bar, IsClosed: true) { Line = null, Fill = 0 },
                new Lettering(left, bottom - thick - (0.35 * letters), letters, label),
            ],
            label);
    }

    // The largest of 1, 2 and 5 times a power of ten that is not longer.
    private static double Round(double mostMm)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(mostMm)));
        return power * (mostMm / power) switch { >= 5 => 5, >= 2 => 2, _ => 1 };
    }
}
