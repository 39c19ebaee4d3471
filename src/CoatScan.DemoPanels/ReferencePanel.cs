using CoatScan.DemoPanels.Camera;
using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels;

/// <summary>
/// A flat panel with one sine wave in its film, mirroring a straight edge, seen by a perfect camera: every number of the
/// photo follows from a formula. For checking measurements, not for training.
/// </summary>
public sealed record ReferencePanel
{
    /// <summary>Width of the photo, pixels.</summary>
    public int WidthPx { get; init; } = 512;

    /// <summary>Height of the photo, pixels.</summary>
    public int HeightPx { get; init; } = 512;

    /// <summary>Scale, mm per pixel, above 0.</summary>
    public double MmPerPx { get; init; } = 0.1;

    /// <summary>Amplitude of the wave, micrometers, 0 or more.</summary>
    public double AmplitudeUm { get; init; } = 2;

    /// <summary>Wavelength, mm, at least 4 pixels.</summary>
    public double WavelengthMm { get; init; } = 5;

    /// <summary>Direction in which the wave runs, radians; 0 along x.</summary>
    public double WaveAngle { get; init; }

    /// <summary>Direction in which the mirrored edge runs, radians; 0 along x.</summary>
    public double EdgeAngle { get; init; } = Math.PI / 2;

    /// <summary>From the panel to the mirrored edge, mm, above 0.</summary>
    public double EdgeDistanceMm { get; init; } = 1000;

    /// <summary>From the camera to the panel, mm, above 0. The default stands for a camera far away.</summary>
    public double CameraDistanceMm { get; init; } = 1e6;

    /// <summary>Diffuse reflectance of the paint, [0, 1].</summary>
    public double Albedo { get; init; } = 0.03;

    /// <summary>Radiance on the bright side of the edge, relative to a white diffuser, 0 or more.</summary>
    public double BrightRadiance { get; init; } = 1;

    /// <summary>Radiance on the dark side; equal to the bright one gives surroundings without any edge.</summary>
    public double DarkRadiance { get; init; }

    /// <summary>Fine rms roughness of the film, micrometers, 0 or more.</summary>
    public double RoughnessUm { get; init; }

    /// <summary>Half width of the mirrored edge itself, radians, above 0.</summary>
    public double EdgeSoftnessRad { get; init; } = 1e-4;

    /// <summary>Factor from radiance to linear signal before sRGB encoding, above 0.</summary>
    public double Exposure { get; init; } = 1;

    /// <summary>The height field, mm.</summary>
    public Plane HeightMm() => Build().HeightMm;

    /// <summary>Linear light of the photo, relative to a white diffuser; gray, so one plane says all.</summary>
    public Plane LinearLight() => Shade().Green;

    /// <summary>The photo, 8-bit sRGB, without noise or blur.</summary>
    public DemoPanel Render()
    {
        var surface = Build();
        var light = Shade().Green;
        var rgb = new byte[3 * WidthPx * HeightPx];
        for (var at = 0; at < light.Values.Length; at++)
        {
            var value = ToneCurve.Encode(light.Values[at] * (float)Exposure, 0f);
            rgb.AsSpan(3 * at, 3).Fill((byte)((Math.Clamp(value, 0f, 1f) * 255f) + 0.5f));
        }

        return new DemoPanel
        {
            VisualClass = AmplitudeUm > 0 ? VisualClassIds.WavyTexture : VisualClassIds.Sound,
            WidthPx = WidthPx,
            HeightPx = HeightPx,
            Rgb = rgb,
            HeightMm = surface.HeightMm,
            MmPerPx = MmPerPx,
            Mask = Array.ConvertAll(surface.Defect.Values, coverage => coverage >= 0.5f),
            Facts = null,
        };
    }

    private LinearImage Shade()
    {
        var surroundings = Surroundings.StraightEdge(
            (float)BrightRadiance, (float)DarkRadiance, (float)EdgeAngle, (float)EdgeSoftnessRad);
        var viewpoint = new Viewpoint((float)CameraDistanceMm, (float)EdgeDistanceMm, 0f, 0f);
        return new Shader(surroundings, Illumination.Even, viewpoint, 0f).Shade(Build());
    }

    private PanelSurface Build()
    {
        if (!(AmplitudeUm >= 0 && MmPerPx > 0 && WavelengthMm >= 4 * MmPerPx && EdgeDistanceMm > 0 && CameraDistanceMm > 0))
        {
            throw new CoatScanException(
                ErrorReason.ValueOutOfRange,
                "A reference panel needs amplitude_um >= 0, mm_per_px > 0, wavelength_mm >= 4 px and distances > 0.",
                "reference_panel");
        }

        var surface = new PanelSurface(WidthPx, HeightPx, (float)MmPerPx);
        Array.Fill(surface.SpecularF0.Values, 0.04f);
        Array.Fill(surface.RoughnessUm.Values, (float)RoughnessUm);
        var cos = Math.Cos(WaveAngle);
        var sin = Math.Sin(WaveAngle);
        for (var y = 0; y < HeightPx; y++)
        {
            for (var x = 0; x < WidthPx; x++)
            {
                var at = (y * WidthPx) + x;
                var along = ((x * cos) + (y * sin)) * MmPerPx;
                surface.HeightMm.Values[at] = (float)(AmplitudeUm * 1e-3 * Math.Sin(2 * Math.PI * along / WavelengthMm));
                surface.SetAlbedo(at, Rgb.Gray((float)Albedo));
                surface.MarkDefect(at, AmplitudeUm > 0 ? 1f : 0f);
            }
        }

        return surface;
    }
}
