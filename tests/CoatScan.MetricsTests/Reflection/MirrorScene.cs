using CoatScan.Metrics;

namespace CoatScan.MetricsTests.Reflection;

/// <summary>A panel that mirrors the straight edge of a bright object: linear light from the law of reflection.</summary>
/// <remarks>
/// The surface z = A sin(2 pi s / L), s along <see cref="WaveDegrees"/>, has the slope 2 pi A / L cos(2 pi s / L); a slope
/// turns the mirrored ray by twice its angle, so for a camera far away the edge at distance D shifts on the panel by 2 D
/// times the slope across it.
/// </remarks>
internal sealed record MirrorScene
{
    internal int SidePx { get; init; } = 640;

    internal double MmPerPx { get; init; } = 0.1;

    internal double AmplitudeUm { get; init; }

    internal double WavelengthMm { get; init; } = 4.0;

    internal double WaveDegrees { get; init; } = 45.0;

    /// <summary>Direction across the mirrored edge, toward its bright side.</summary>
    internal double AcrossDegrees { get; init; } = 8.0;

    internal double ObjectDistanceMm { get; init; } = 300.0;

    /// <summary>Blur of the mirrored edge on the panel, standard deviation, pixels.</summary>
    internal double BlurPx { get; init; } = 1.0;

    internal double PaintReflectance { get; init; } = 0.03;

    /// <summary>Radiance of the bright object over that of a white diffuser, and of what is beside it.</summary>
    internal double BrightRadiance { get; init; } = 1.0;

    internal double DarkRadiance { get; init; }

    /// <summary>Standard deviation of the noise, share of the signal.</summary>
    internal double Noise { get; init; }

    /// <summary>Rms shift of the edge, mm: root 2 D 2 pi A / L times the share of the slope across the edge.</summary>
    internal double ShiftRmsMm => Math.Sqrt(2.0) * ObjectDistanceMm * 2.0 * Math.PI * AmplitudeUm * 1e-3 / WavelengthMm
        * Math.Abs(Math.Cos(Radians(WaveDegrees - AcrossDegrees)));

    /// <summary>Wavelength along the edge, pixels.</summary>
    internal double WavelengthAlongPx =>
        WavelengthMm / MmPerPx / Math.Abs(Math.Sin(Radians(WaveDegrees - AcrossDegrees)));

    /// <summary>Mirror reflectance of n = 1.5 at normal view.</summary>
    internal const double MirrorReflectance = 0.04;

    internal Plane LinearLight()
    {
        var (acrossX, acrossY) = (Math.Cos(Radians(AcrossDegrees)), Math.Sin(Radians(AcrossDegrees)));
        var (waveX, waveY) = (Math.Cos(Radians(WaveDegrees)), Math.Sin(Radians(WaveDegrees)));
        var shiftPx = 2.0 * ObjectDistanceMm * 2.0 * Math.PI * AmplitudeUm * 1e-3 / WavelengthMm
            * Math.Cos(Radians(WaveDegrees - AcrossDegrees)) / MmPerPx;
        var random = new Random(5);
        return Pattern.Draw(SidePx, SidePx, (x, y) =>
        {
            var (u, v) = (x - (0.5 * SidePx), y - (0.5 * SidePx));
            var phase = 2.0 * Math.PI * ((u * waveX) + (v * waveY)) * MmPerPx / WavelengthMm;
            var fromEdge = (u * acrossX) + (v * acrossY) - (shiftPx * Math.Cos(phase));
            var radiance = DarkRadiance + ((BrightRadiance - DarkRadiance) * NormalShare(fromEdge / BlurPx));
            return (PaintReflectance + (MirrorReflectance * radiance)) * (1.0 + (Noise * Pattern.Normal(random)));
        });
    }

    internal PanelPlanes Panel() => Pattern.Gray(LinearLight(), MmPerPx);

    // Integral of the normal density, by the logistic-tanh form: within 2e-4.
    internal static double NormalShare(double x) =>
        0.5 * (1.0 + Math.Tanh(Math.Sqrt(2.0 / Math.PI) * (x + (0.044715 * x * x * x))));

    private static double Radians(double degrees) => degrees * Math.PI / 180.0;
}
