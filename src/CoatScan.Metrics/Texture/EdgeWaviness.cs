using System.Globalization;
using CoatScan.Findings;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Reflection;

namespace CoatScan.Metrics.Texture;

/// <summary>Waviness from the reflected edges of straight objects: rms slope of the edge in octave bands, 0 or
/// more.</summary>
/// <remarks>
/// <para><c>waviness_edge_*</c>: a straight object's edge, mirrored by a wavy panel, is bent; the residual from a smooth
/// curve is filtered into bands, see <see cref="TraceBands"/>. Without geometry the value is relative: how far the edge turns
/// aside, px per px, unit 1. It grows with the distance of the object, so it compares photos taken alike. With the distances
/// known it is the rms slope of the surface across the edge, mrad: shift / (2 D), see <see cref="MirrorGeometry"/>.</para>
/// <para><c>waviness_edge_wavelength_px</c>, <c>_mm</c>: the wavelength along the edge, if one rules, see
/// <see cref="TraceSpectrum"/>.</para>
/// <para>Wavelengths are along the edge, and only the slope across it counts: a wave that runs exactly along or across shows
/// nothing.</para>
/// <para>Bands pass a sine of wavelength L with <see cref="OctaveBands.Gain"/>, at most 0.4725, as in the contrast
/// method.</para>
/// <para>Absent: surroundings without a straight edge (or uniform), no edge of eight times the band's shorter wavelength;
/// bands in pixels where the scale is known, bands in millimeters without a scale or under 4 px. See
/// <see cref="ReflectedEdgeFinder"/> for what is taken for a reflected edge.</para>
/// <para>Uncertainty, 95 %: spread of stretches or counting; noise and interpolation of the trace, which bias a small value
/// upward; the photo's blur; with a scale, its uncertainty: it moves the band over the spectrum, whose slope is taken from
/// neighboring bands; with distances, 5 % for measuring them by hand.</para>
/// <para>Cost: proportional to the length of the edges. Sources: ISO 16610-21:2011; law of reflection; waviness judged by
/// reflected shapes: J. Coat. Technol. Res. 2023, s11998-023-00775-6.</para>
/// </remarks>
internal static class EdgeWaviness
{
    internal const string WavelengthPx = "waviness_edge_wavelength_px";
    internal const string WavelengthMm = "waviness_edge_wavelength_mm";
    internal const string NoStraightEdge = "the panel reflects no long straight edge";
    internal const string NoRulingWavelength = "no single wavelength rules the reflected edge";

    /// <summary>Adds every band and the wavelength, each a value or a reason.</summary>
    /// <param name="edges">Reflected edges, longest first.</param>
    /// <param name="reflects">False where the surroundings are uniform.</param>
    /// <param name="scale">Scale of the planes; null without one.</param>
    /// <param name="blurPx">Blur of the photo's sharpest edges, pixels; null if unknown.</param>
    /// <param name="geometry">Where object and camera stood; null if unknown. Used only with a scale.</param>
    /// <param name="measurements">Takes the results.</param>
    internal static void Measure(
        IReadOnlyList<ReflectedEdge> edges,
        bool reflects,
        LengthScale? scale,
        double? blurPx,
        MirrorGeometry? geometry,
        List<Measurement> measurements)
    {
        var reason = !reflects ? WavinessBands.NothingToReflect : edges.Count == 0 ? NoStraightEdge : null;
        AddPixelBands(edges, scale is null ? reason : WavinessBands.InMillimeters, blurPx, measurements);
        AddMmBands(edges, reason, scale, blurPx, geometry, measurements);
        AddWavelength(edges, reason, scale, measurements);
    }

    private static void AddPixelBands(
        IReadOnlyList<ReflectedEdge> edges, string? reason, double? blurPx, List<Measurement> measurements)
    {
        foreach (var shortest in WavinessBands.ShortestPx)
        {
            var metric = WavinessBands.PixelMetric(WavinessBands.Edge, shortest);
            var band = reason is null ? TraceBands.Read(edges, shortest) : null;
            measurements.Add(band is null
                ? Measurement.Absent(metric, "1", reason ?? TooShort(shortest))
                : Value(metric, "1", (band.SlopeRms, band.SlopeFloor), band, shortest, 0.0, blurPx));
        }
    }

    private static void AddMmBands(
        IReadOnlyList<ReflectedEdge> edges,
        string? reason,
        LengthScale? scale,
        double? blurPx,
        MirrorGeometry? geometry,
        List<Measurement> measurements)
    {
        var mmPerPx = scale?.MmPerPx ?? 1.0;
        var unit = geometry is null ? "1" : "mrad";
        var bands = Array.ConvertAll(WavinessBands.ShortestMm, shortestMm =>
            reason is null && scale is not null && shortestMm / mmPerPx >= WavinessBands.ShortestUsablePx
                ? TraceBands.Read(edges, shortestMm / mmPerPx)
                : null);
        for (var i = 0; i < bands.Length; i++)
        {
            var metric = WavinessBands.MmMetric(WavinessBands.Edge, WavinessBands.ShortestMm[i]);
            var shortest = WavinessBands.ShortestMm[i] / mmPerPx;
            if (bands[i] is not { } band)
            {
                measurements.Add(Measurement.Absent(metric, unit, scale is null ? AbsentReasons.NoScale
                    : shortest < WavinessBands.ShortestUsablePx ? WavinessBands.NotResolved(shortest)
                    : reason ?? TooShort(shortest)));
                continue;
            }

            var mradPerPx = geometry is null ? (double?)null : mmPerPx * geometry.MradPerMm;
            var moved = Steepness(bands, i) + (geometry is null ? 0.0 : 1.0);
            var stated = HalfWidth.Join(
                scale!.Value.RelativeUncertainty * moved, geometry is null ? 0.0 : MirrorGeometry.DistanceUncertainty);
            measurements.Add(Value(metric, unit, Strength(band, mradPerPx), band, shortest, stated, blurPx));
        }
    }

    private static (double Value, double Floor) Strength(TraceBand band, double? mradPerPx) => mradPerPx is { } factor
        ? (band.ShiftRmsPx * factor, band.ShiftFloorPx * factor)
        : (band.SlopeRms, band.SlopeFloor);

    private static Measurement Value(
        string metric,
        string unit,
        (double Value, double Floor) strength,
        TraceBand band,
        double shortestPx,
        double stated,
        double? blurPx)
    {
        var (value, floor) = strength;
        var blur = WavinessBands.LostToBlur(shortestPx, blurPx);
        var relative = (band.RelativeSpread * band.RelativeSpread) + (blur * blur) + (stated * stated);

        // Noise that is left adds in quadrature: its whole to nothing, little to a strong wave.
        var bias = floor <= 0.0 ? 0.0 : floor * floor / Math.Max(value, floor);
        return Measurement.Of(metric, value, unit, Math.Sqrt((value * value * relative) + (bias * bias)));
    }

    // Relative change of the value with the logarithm of the band's limits, from its neighbors an octave away.
    private static double Steepness(TraceBand?[] bands, int at)
    {
        var (below, above) = (Math.Max(0, at - 1), Math.Min(bands.Length - 1, at + 1));
        var (low, high) = (bands[below] ?? bands[at]!, bands[above] ?? bands[at]!);
        var octaves = (ReferenceEquals(low, bands[at]) ? 0 : 1) + (ReferenceEquals(high, bands[at]) ? 0 : 1);
        return octaves == 0 || bands[at]!.SlopeRms <= 0.0
            ? 1.0
            : Math.Abs(high.SlopeRms - low.SlopeRms) / bands[at]!.SlopeRms / (octaves * Math.Log(2.0));
    }

    private static void AddWavelength(
        IReadOnlyList<ReflectedEdge> edges, string? reason, LengthScale? scale, List<Measurement> measurements)
    {
        var found = reason is null ? TraceSpectrum.Dominant(edges[0]) : null;
        reason ??= found is null ? NoRulingWavelength : null;
        if (found is not { } wave)
        {
            measurements.Add(Measurement.Absent(WavelengthPx, "{px}", reason!));
            measurements.Add(Measurement.Absent(WavelengthMm, "mm", scale is null ? AbsentReasons.NoScale : reason!));
            return;
        }

        measurements.Add(Measurement.Of(WavelengthPx, wave.WavelengthPx, "{px}", wave.HalfWidthPx));
        measurements.Add(scale is { } known
            ? Measurement.Of(
                WavelengthMm,
                wave.WavelengthPx * known.MmPerPx,
                "mm",
                known.MmPerPx * Math.Sqrt(
                    Math.Pow(wave.HalfWidthPx, 2.0) + Math.Pow(wave.WavelengthPx * known.RelativeUncertainty, 2.0)))
            : Measurement.Absent(WavelengthMm, "mm", AbsentReasons.NoScale));
    }

    private static string TooShort(double shortestPx) => string.Create(
        CultureInfo.InvariantCulture,
        $"the reflected edges are too short: {TraceBands.LengthsNeeded * shortestPx:0} px are needed");
}
