using CoatScan.DemoPanels;
using CoatScan.Imaging;

namespace CoatScan.Training.Rendering;

/// <summary>Rendered panels as the JPEG files that phones would send.</summary>
internal static class RenderedPhotos
{
    private static readonly (int Width, int Height)[] Sizes = [(640, 480), (480, 640), (640, 640), (800, 600)];

    private const ulong ReplacementStride = 10_000_019;

    private const ulong MostReplacements = 5;

    // Some pairs of faults hide each other more often than not.
    private const ulong MostPairReplacements = 40;

    /// <summary>Changes whenever the renderer is built from other code.</summary>
    public static string RendererVersion { get; } =
        typeof(DemoPanelRenderer).Assembly.ManifestModule.ModuleVersionId.ToString();

    /// <summary>The panel of a seed. A seed whose scene hides the fault is replaced by one far from all sets.</summary>
    public static DemoPanel Panel(
        string visualClass, int seed, PanelLook look = PanelLook.Usual, string? secondClass = null)
    {
        var (width, height) = Sizes[seed % Sizes.Length];
        var options = new DemoPanelOptions { WidthPx = width, HeightPx = height, Look = look, SecondClass = secondClass };
        var most = secondClass is null ? MostReplacements : MostPairReplacements;
        for (var attempt = 0UL; ; attempt++)
        {
            try
            {
                return DemoPanelRenderer.Render(visualClass, (ulong)seed + (attempt * ReplacementStride), options);
            }
            catch (InvalidOperationException) when (attempt < most)
            {
                // Try the next one.
            }
        }
    }

    /// <param name="panel">A rendered panel.</param>
    /// <param name="seed">Draws the camera.</param>
    /// <param name="harsh">Whether the camera is worse than that of a careful user.</param>
    /// <param name="look">The shifted look has files that are smaller or larger than all others.</param>
    public static byte[] Jpeg(DemoPanel panel, int seed, bool harsh, PanelLook look = PanelLook.Usual)
    {
        var random = new Random(seed);
        if (look == PanelLook.Shifted)
        {
            return panel.EncodeJpeg(random.Next(2) == 0 ? random.Next(20, 35) : random.Next(98, 101));
        }

        if (!harsh)
        {
            return panel.EncodeJpeg(random.Next(82, 97));
        }

        var spoilt = HarshCamera.Spoil(panel.Rgb, panel.WidthPx, panel.HeightPx, random);
        return PhotoEncoder.EncodeJpeg(spoilt, panel.WidthPx, panel.HeightPx, random.Next(35, 80));
    }
}
