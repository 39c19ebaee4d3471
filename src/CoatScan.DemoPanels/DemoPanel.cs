using CoatScan.Imaging;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels;

/// <summary>A rendered photo with everything that is true about it.</summary>
public sealed record DemoPanel
{
    /// <summary>Visual class, one of <see cref="VisualClassIds.All"/>.</summary>
    public required string VisualClass { get; init; }

    /// <summary>Width, pixels.</summary>
    public required int WidthPx { get; init; }

    /// <summary>Height, pixels.</summary>
    public required int HeightPx { get; init; }

    /// <summary>8-bit sRGB: red, green, blue of every pixel, row by row.</summary>
    public required byte[] Rgb { get; init; }

    /// <summary>
    /// Height of the surface where each pixel looks, mm, toward the camera; zeros for <c>not_a_panel</c>. Meaningless on
    /// the background beyond the panel's edge.
    /// </summary>
    public required Plane HeightMm { get; init; }

    /// <summary>Scale at the center of the photo, mm per pixel, above 0; null for <c>not_a_panel</c>.</summary>
    public required double? MmPerPx { get; init; }

    /// <summary>One flag a pixel, row by row: true where the (first) fault shows.</summary>
    public required bool[] Mask { get; init; }

    /// <summary>The second fault; null for none.</summary>
    public string? SecondClass { get; init; }

    /// <summary>One flag a pixel, row by row: true where the second fault shows; empty without one.</summary>
    public bool[] SecondMask { get; init; } = [];

    /// <summary>The scene behind the photo; null for <c>not_a_panel</c>.</summary>
    public required PanelSceneFacts? Facts { get; init; }

    /// <summary>The photo as JPEG.</summary>
    /// <param name="quality">JPEG quality, [1, 100].</param>
    public byte[] EncodeJpeg(int quality) => PhotoEncoder.EncodeJpeg(Rgb, WidthPx, HeightPx, quality);
}
