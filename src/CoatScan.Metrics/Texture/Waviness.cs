using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Metrics.Texture;

/// <summary>Waviness of the reflection in octave bands of wavelength: relative contrast, 0 or more.</summary>
/// <remarks>
/// <para>A wavy clear coat bends the reflection of its surroundings. The photo shows the product of slope and the surroundings'
/// gradient, so the values compare panels taken alike; they are neither slopes nor heights.</para>
/// <para>Input: linear red, green and blue. The band's root mean square of ln luminance (a local contrast) is the median over
/// tiles of 32 x 32 samples; tiles with clipped pixels are left out; sensor noise is taken off in quadrature.</para>
/// <para>Normalized to black paint: a reflection of reflectance R = 0.04 over a base of luminance rho has the contrast R / (R +
/// rho) of the reflected pattern, twelve times more on black (0.03) than on white (0.8). Each value is multiplied by
/// (R + rho) / (R + 0.03), with rho = median luminance - R: what the same surface would show on black. This takes the photo as
/// exposed so that a perfect white is near 1; a black panel exposed up to mid gray reads up to three times too wavy.</para>
/// <para>Absent: no reflected gradient to distort (a uniform reflection hides any waviness), the panel shorter than four of the
/// longest wavelengths, or no tile free of clipping; for bands in millimeters also no scale or under 4 px.</para>
/// <para>Block coding: the 8 px grid is removed first, see <see cref="BlockGrid"/>.</para>
/// <para>Sources: ISO 16610-21:2011 (filter); Fresnel reflectance of n = 1.5 at normal view, 0.04; Konieczny and Meyer, J.
/// Coat. Technol. Res. 9(3), 297-307, 2012 (waviness is seen more easily on dark colors). The band limits are our own.</para>
/// </remarks>
internal static class Waviness
{
    internal const string NothingToReflect =
        "nothing to reflect: the surroundings are uniform, so waviness cannot show";

    internal const string AllClipped = "clipped highlights cover the panel";

    private const double FresnelReflectance = 0.04;
    private const double BlackBase = 0.03;
    private const double PeriodsNeeded = 4.0;
    private const double ShortestUsablePx = 4.0;

    // Spread (5th to 95th percentile) of the coarse reflection, as contrast on black, below which nothing is reflected.
    private const double LeastSpread = 0.02;

    private static readonly double[] ShortestOfPixelBands = [4, 8, 16, 32, 64];
    private static readonly double[] ShortestOfMmBands = [0.6, 1.2, 2.4, 4.8, 9.6];

    internal static void Measure(PanelPlanes panel, List<Measurement> measurements, CancellationToken cancellation)
    {
        using var scope = new PlaneScope();
        var contrast = LogLuminance.Of(panel, scope);
        var noise = SensorNoise.Of(contrast);
        BlockGrid.Remove(contrast, panel.OriginalPxPerPx);
        cancellation.ThrowIfCancellationRequested();
        var bands = new OctaveBands(contrast, panel.Clipped, scope);
        var pixelBands = bands.MeasurePixelBands(ShortestOfPixelBands.Length);
        var toBlack = (FresnelReflectance + BaseLuminance(contrast)) / (FresnelReflectance + BlackBase);
        var reflects = Spread(bands.Level(CoarseLevel(panel))) * toBlack >= LeastSpread;
        var shortSide = Math.Min(panel.Width, panel.Height);

        AddPixelBands(pixelBands, reflects, shortSide, toBlack, noise, measurements);
        cancellation.ThrowIfCancellationRequested();
        AddMmBands(bands, reflects, shortSide, panel.MmPerPx, toBlack, noise, measurements);
    }

    internal static string PixelMetric(double shortestPx) => string.Create(
        CultureInfo.InvariantCulture, $"waviness_{shortestPx}_{2.0 * shortestPx}_px");

    /// <summary>Decimal points become underscores: 1.2 mm to 2.4 mm is <c>waviness_1_2_to_2_4_mm</c>.</summary>
    internal static string MmMetric(double shortestMm) => string.Create(
        CultureInfo.InvariantCulture,
        $"waviness_{shortestMm:0.0}_to_{2.0 * shortestMm:0.0}_mm").Replace('.', '_');

    private static void AddPixelBands(
        IReadOnlyList<BandReading?> readings,
        bool reflects,
        int shortSidePx,
        double toBlack,
        double noise,
        List<Measurement> measurements)
    {
        for (var i = 0; i < ShortestOfPixelBands.Length; i++)
        {
            var shortest = ShortestOfPixelBands[i];
            var metric = PixelMetric(shortest);
            measurements.Add(
                !reflects ? Measurement.Absent(metric, "1", NothingToReflect)
                : !Fits(shortest, shortSidePx)
                    ? Measurement.Absent(metric, "1", TooSmall(2.0 * PeriodsNeeded * shortest))
                : ToMeasurement(metric, readings[i], toBlack, noise));
        }
    }

    private static void AddMmBands(
        OctaveBands bands,
        bool reflects,
        int shortSidePx,
        double? mmPerPx,
        double toBlack,
        double noise,
        List<Measurement> measurements)
    {
        var first = 0;
        while (mmPerPx is { } scale && first < ShortestOfMmBands.Length
            && ShortestOfMmBands[first] / scale < ShortestUsablePx)
        {
            first++;
        }

        var fitting = first;
        while (mmPerPx is { } scale && fitting < ShortestOfMmBands.Length
            && Fits(ShortestOfMmBands[fitting] / scale, shortSidePx))
        {
            fitting++;
        }

        var readings = reflects && fitting > first
            ? bands.MeasureBands(ShortestOfMmBands[first] / mmPerPx!.Value, fitting - first)
            : [];
        for (var i = 0; i < ShortestOfMmBands.Length; i++)
        {
            var metric = MmMetric(ShortestOfMmBands[i]);
            measurements.Add(
                mmPerPx is not { } scale ? Measurement.Absent(metric, "1", AbsentReasons.NoScale)
                : i < first ? Measurement.Absent(metric, "1", NotResolved(ShortestOfMmBands[i] / scale))
                : !reflects ? Measurement.Absent(metric, "1", NothingToReflect)
                : i >= fitting
                    ? Measurement.Absent(metric, "1", TooSmall(2.0 * PeriodsNeeded * ShortestOfMmBands[i] / scale))
                : ToMeasurement(metric, readings[i - first], toBlack, noise));
        }
    }

    private static Measurement ToMeasurement(string metric, BandReading? reading, double toBlack, double noise)
    {
        if (reading is null)
        {
            return Measurement.Absent(metric, "1", AllClipped);
        }

        var bandNoise = noise * SensorNoise.ShareInBand(reading.ShortestPx);
        var square = (reading.MedianRms * reading.MedianRms) - (bandNoise * bandNoise);
        var value = Math.Sqrt(Math.Max(0.0, square)) * toBlack;
        var uncertainty = reading.Tiles < 4 ? (double?)null : 1.96 * reading.StandardError * toBlack;
        return Measurement.Of(metric, value, "1", uncertainty);
    }

    private static bool Fits(double shortestPx, int shortSidePx) =>
        shortSidePx >= 2.0 * PeriodsNeeded * shortestPx;

    private static string TooSmall(double neededPx) => string.Create(
        CultureInfo.InvariantCulture, $"the panel is too small: {neededPx:0} px are needed on the short side");

    private static string NotResolved(double wavelengthPx) => string.Create(
        CultureInfo.InvariantCulture,
        $"the photo does not resolve this wavelength: {wavelengthPx:0.0} px, {ShortestUsablePx:0} px are needed");

    // The level whose samples are low-passed at about an eighth of the short side.
    private static int CoarseLevel(PanelPlanes panel)
    {
        var wavelength = Math.Min(panel.Width, panel.Height) / 8.0;
        return Math.Clamp((int)Math.Floor(Math.Log2(Math.Max(1.0, wavelength / ShortestUsablePx))), 0, 5);
    }

    private static double Spread(Plane coarse)
    {
        var sorted = (float[])coarse.Values.Clone();
        Array.Sort(sorted);
        return sorted[(int)(0.95 * (sorted.Length - 1))] - sorted[(int)(0.05 * (sorted.Length - 1))];
    }

    private static double BaseLuminance(Plane contrast)
    {
        var sample = new List<float>();
        var stride = Math.Max(1, contrast.Values.Length / 20_011);
        for (var i = 0; i < contrast.Values.Length; i += stride)
        {
            sample.Add(contrast.Values[i]);
        }

        sample.Sort();
        return Math.Max(0.0, Math.Exp(sample[sample.Count / 2]) - FresnelReflectance);
    }
}
