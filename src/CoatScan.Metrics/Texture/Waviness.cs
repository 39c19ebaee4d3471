using System.Globalization;
using CoatScan.Findings;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Texture;

/// <summary>Waviness of the reflection by local contrast: rms of ln luminance in octave bands of wavelength, 0 or
/// more.</summary>
/// <remarks>
/// <para><c>waviness_contrast_*</c>: a wavy clear coat bends the reflection of its surroundings. The photo shows the product
/// of slope and the surroundings' gradient, so the values compare panels taken alike; they are neither slopes nor heights.
/// Unit 1.</para>
/// <para>Input: linear red, green and blue. The band's root mean square of ln luminance (a local contrast) is the median over
/// tiles of 32 x 32 samples; tiles with clipped pixels are left out; sensor noise is taken off in quadrature.</para>
/// <para>Normalized to black paint: a reflection of reflectance R = 0.04 over a base of luminance rho has the contrast R / (R
/// + rho) of the reflected pattern, twelve times more on black (0.03) than on white (0.8). Each value is multiplied by (R +
/// rho) / (R + 0.03), with rho = median luminance - R: what the same surface would show on black. This takes the photo as
/// exposed so that a perfect white is near 1; a black panel exposed up to mid gray reads up to three times too wavy.</para>
/// <para>Absent: no reflected gradient to distort (a uniform reflection hides any waviness), the panel shorter than four of
/// the longest wavelengths, or no tile free of clipping; bands in pixels where the scale is known; bands in millimeters
/// without a scale or under 4 px.</para>
/// <para>Block coding: the 8 px grid is removed first, see <see cref="BlockGrid"/>.</para>
/// <para>Uncertainty, 95 %: scatter of the tiles, or with less than four of them the value itself; sensor noise that escapes
/// its estimate when pixels were mixed (linear interpolation: 2.25 times the power along either axis, so four times that
/// taken off is left); the error that block coding left, from the steps at the borders of its blocks; the photo's blur; with
/// a scale, its uncertainty: it moves the band over the spectrum, whose slope is taken from neighboring bands. It does not
/// hold for another exposure.</para>
/// <para>Sources: ISO 16610-21:2011 (filter); Fresnel reflectance of n = 1.5 at normal view, 0.04; Konieczny and Meyer, J.
/// Coat. Technol. Res. 9(3), 297-307, 2012 (waviness is seen more easily on dark colors). The band limits are our own.</para>
/// </remarks>
internal static class Waviness
{
    internal const string AllClipped = "clipped highlights cover the panel";

    private const double FresnelReflectance = 0.04;
    private const double BlackBase = 0.03;
    private const double PeriodsNeeded = 4.0;
    private const double CoarseSamples = 32.0;

    // Square root of 2.25 x 2.25 - 1, see TraceBands.CorrelatedNoise.
    private const double SmoothedNoise = 2.0;

    // Spread (5th to 95th percentile) of the coarse reflection, as contrast on black, below which nothing is reflected.
    private const double LeastSpread = 0.02;

    /// <summary>Adds every band, a value or a reason; answers whether there is anything to reflect.</summary>
    internal static bool Measure(
        PanelPlanes panel,
        LengthScale? scale,
        double? blurPx,
        List<Measurement> measurements,
        CancellationToken cancellation)
    {
        using var scope = new PlaneScope();
        var contrast = LogLuminance.Of(panel, scope);
        var noise = SensorNoise.Of(contrast);
        var coding = BlockGrid.Remove(contrast, panel.OriginalPxPerPx);
        cancellation.ThrowIfCancellationRequested();
        var bands = new OctaveBands(contrast, panel.Clipped, scope);
        var toBlack = (FresnelReflectance + BaseLuminance(contrast)) / (FresnelReflectance + BlackBase);
        var reflects = Spread(Coarse(contrast, scope)) * toBlack >= LeastSpread;
        var shortSide = Math.Min(panel.Width, panel.Height);
        var photo = new PhotoErrors(toBlack, noise, coding, blurPx);

        AddPixelBands(bands, reflects, shortSide, scale, photo, measurements);
        cancellation.ThrowIfCancellationRequested();
        AddMmBands(bands, reflects, shortSide, scale, photo, measurements);
        return reflects;
    }

    private static void AddPixelBands(
        OctaveBands bands,
        bool reflects,
        int shortSidePx,
        LengthScale? scale,
        PhotoErrors photo,
        List<Measurement> measurements)
    {
        var readings = scale is null && reflects ? bands.MeasurePixelBands(WavinessBands.ShortestPx.Length) : [];
        for (var i = 0; i < WavinessBands.ShortestPx.Length; i++)
        {
            var shortest = WavinessBands.ShortestPx[i];
            var metric = WavinessBands.PixelMetric(WavinessBands.Contrast, shortest);
            measurements.Add(
                scale is not null ? Measurement.Absent(metric, "1", WavinessBands.InMillimeters)
                : !reflects ? Measurement.Absent(metric, "1", WavinessBands.NothingToReflect)
                : !Fits(shortest, shortSidePx)
                    ? Measurement.Absent(metric, "1", TooSmall(2.0 * PeriodsNeeded * shortest))
                : ToMeasurement(metric, readings, i, photo, 0.0));
        }
    }

    private static void AddMmBands(
        OctaveBands bands,
        bool reflects,
        int shortSidePx,
        LengthScale? scale,
        PhotoErrors photo,
        List<Measurement> measurements)
    {
        var mmPerPx = scale?.MmPerPx ?? 1.0;
        var first = 0;
        while (first < WavinessBands.ShortestMm.Length
            && WavinessBands.ShortestMm[first] / mmPerPx < WavinessBands.ShortestUsablePx)
        {
            first++;
        }

        var fitting = first;
        while (fitting < WavinessBands.ShortestMm.Length && Fits(WavinessBands.ShortestMm[fitting] / mmPerPx, shortSidePx))
        {
            fitting++;
        }

        var readings = scale is not null && reflects && fitting > first
            ? bands.MeasureBands(WavinessBands.ShortestMm[first] / mmPerPx, fitting - first)
            : [];
        for (var i = 0; i < WavinessBands.ShortestMm.Length; i++)
        {
            var metric = WavinessBands.MmMetric(WavinessBands.Contrast, WavinessBands.ShortestMm[i]);
            var shortest = WavinessBands.ShortestMm[i] / mmPerPx;
            measurements.Add(
                scale is not { } known ? Measurement.Absent(metric, "1", AbsentReasons.NoScale)
                : i < first ? Measurement.Absent(metric, "1", WavinessBands.NotResolved(shortest))
                : !reflects ? Measurement.Absent(metric, "1", WavinessBands.NothingToReflect)
                : i >= fitting ? Measurement.Absent(metric, "1", TooSmall(2.0 * PeriodsNeeded * shortest))
                : ToMeasurement(metric, readings, i - first, photo, known.RelativeUncertainty));
        }
    }

    private static Measurement ToMeasurement(
        string metric, IReadOnlyList<BandReading?> readings, int at, PhotoErrors photo, double scaleUncertainty)
    {
        if (readings[at] is not { } reading)
        {
            return Measurement.Absent(metric, "1", AllClipped);
        }

        var value = photo.WithoutNoise(reading);
        var spread = reading.Tiles < 4 ? value : 1.96 * reading.StandardError;
        var noise = photo.LeftOfNoise(reading, value);
        var coding = 1.96 * (Math.Sqrt((value * value) + (photo.CodingRms * photo.CodingRms)) - value);
        var blur = value * WavinessBands.LostToBlur(reading.ShortestPx, photo.BlurPx);
        var scale = scaleUncertainty * Steepness(readings, at);
        var uncertainty = Math.Sqrt(
            (spread * spread) + (noise * noise) + (coding * coding) + (blur * blur) + (scale * scale));
        return Measurement.Of(metric, value * photo.ToBlack, "1", uncertainty * photo.ToBlack);
    }

    // Change of the band's rms with the logarithm of its limits, from its neighbors an octave away.
    private static double Steepness(IReadOnlyList<BandReading?> readings, int at)
    {
        var (below, above) = (Math.Max(0, at - 1), Math.Min(readings.Count - 1, at + 1));
        return readings[below] is { } low && readings[above] is { } high && above > below
            ? Math.Abs(high.MedianRms - low.MedianRms) / ((above - below) * Math.Log(2.0))
            : readings[at]!.MedianRms;
    }

    private static bool Fits(double shortestPx, int shortSidePx) =>
        shortSidePx >= 2.0 * PeriodsNeeded * shortestPx;

    private static string TooSmall(double neededPx) => string.Create(
        CultureInfo.InvariantCulture, $"the panel is too small: {neededPx:0} px are needed on the short side");

    // What is longer than about an eighth of the short side: 32 samples on it, low-passed at four of them.
    private static Plane Coarse(Plane contrast, PlaneScope scope)
    {
        var shortSide = Math.Min(contrast.Width, contrast.Height);
        var factor = Math.Min(1.0, CoarseSamples / shortSide);
        var reduced = scope.Rent(
            Math.Max(1, (int)Math.Round(factor * contrast.Width)), Math.Max(1, (int)Math.Round(factor * contrast.Height)));
        AreaReduction.Apply(contrast, reduced);
        var coarse = scope.RentLike(reduced);
        GaussianFilter.Apply(reduced, coarse, GaussianFilter.SigmaOfCutoff(4.0));
        return coarse;
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

    /// <summary>What the photo does to every band alike.</summary>
    /// <param name="ToBlack">Factor to what the surface would show on black.</param>
    /// <param name="NoiseRms">Sensor noise, ln luminance.</param>
    /// <param name="CodingRms">Error of block coding, ln luminance.</param>
    /// <param name="BlurPx">Blur of the sharpest edges, pixels; null if unknown.</param>
    private readonly record struct PhotoErrors(double ToBlack, double NoiseRms, double CodingRms, double? BlurPx)
    {
        internal double WithoutNoise(BandReading reading)
        {
            var noise = NoiseIn(reading);
            return Math.Sqrt(Math.Max(0.0, (reading.MedianRms * reading.MedianRms) - (noise * noise)));
        }

        // Noise that a camera or a resizing has smoothed escapes the estimate.
        internal double LeftOfNoise(BandReading reading, double value)
        {
            var noise = SmoothedNoise * NoiseIn(reading);
            return noise <= 0.0 ? 0.0 : noise * noise / Math.Max(value, noise);
        }

        private double NoiseIn(BandReading reading) => NoiseRms * SensorNoise.ShareInBand(reading.ShortestPx);
    }
}
