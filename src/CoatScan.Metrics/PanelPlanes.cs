using CoatScan.Metrics.Reflection;

namespace CoatScan.Metrics;

/// <summary>A panel ready to be measured: oriented, linear, white-balanced, at working size.</summary>
public sealed record PanelPlanes
{
    /// <summary>Linear light of the red sRGB primary, [0, 1], D65.</summary>
    public required Plane Red { get; init; }

    /// <summary>Linear light of the green sRGB primary, [0, 1], D65.</summary>
    public required Plane Green { get; init; }

    /// <summary>Linear light of the blue sRGB primary, [0, 1], D65.</summary>
    public required Plane Blue { get; init; }

    /// <summary>CIE L*, [0, 100], D65.</summary>
    public required Plane Lightness { get; init; }

    /// <summary>CIE a*, D65.</summary>
    public required Plane AStar { get; init; }

    /// <summary>CIE b*, D65.</summary>
    public required Plane BStar { get; init; }

    /// <summary>One flag a pixel, row-major: true where the original was clipped to white, so that texture there is lost.</summary>
    public required bool[] Clipped { get; init; }

    /// <summary>Millimeters per pixel of the planes, one number for the whole photo, above 0; null without a scale.</summary>
    public double? MmPerPx { get; init; }

    /// <summary>Relative uncertainty of <see cref="MmPerPx"/> for a length anywhere in the photo, in any direction, 95 % half width,
    /// at most about 1: 0.02 is 2 %; null without a scale.</summary>
    /// <remarks>An area or a density carries it twice. A tilt makes it large: <see cref="Scale"/> at the mark's place is better.</remarks>
    public double? ScaleUncertainty { get; init; }

    /// <summary>The scale at every place; null without a scale.</summary>
    public PlaneScale? Scale { get; init; }

    /// <summary>Where the mirrored object and the camera stood; null if unknown.</summary>
    public MirrorGeometry? Mirror { get; init; }

    /// <summary>One scale for the whole photo; null without one.</summary>
    internal LengthScale? MeanScale => MmPerPx is { } scale ? new LengthScale(scale, ScaleUncertainty ?? 0.0) : null;

    /// <summary>The scale at one place, pixels of the planes; null without a scale.</summary>
    internal LengthScale? ScaleAt(double x, double y) =>
        MmPerPx is not null && Scale?.MmPerPxAt(x, y) is { } here && Scale.UncertaintyAt(x, y) is { } uncertainty
            ? new LengthScale(here, uncertainty)
            : MeanScale;

    /// <summary>Pixels of the oriented original photo per pixel of the planes, at least 1.</summary>
    public required double OriginalPxPerPx { get; init; }

    /// <summary>Hands the samples of the six planes to later photos. Once, and nothing may touch the planes after.</summary>
    /// <exception cref="InvalidOperationException">They were given back already.</exception>
    public void GiveBack()
    {
        PlaneScope.FitTo(Lightness.Values.Length);
        foreach (var plane in (ReadOnlySpan<Plane>)[Red, Green, Blue, Lightness, AStar, BStar])
        {
            PlaneScope.Keep(plane.Values);
        }
    }

    /// <summary>Lets go of all samples that wait for later photos: for a process that has nothing to do.</summary>
    public static void LetGo() => PlaneScope.LetGo();

    /// <summary>Width of the planes, pixels.</summary>
    public int Width => Lightness.Width;

    /// <summary>Height of the planes, pixels.</summary>
    public int Height => Lightness.Height;
}
