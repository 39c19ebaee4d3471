using CoatScan.DemoPanels;
using CoatScan.Imaging;

namespace CoatScan.Benchmarks;

/// <summary>A photo of any size from a rendered panel, with sensor noise, so that it decodes like one from a camera.</summary>
internal static class LargePhoto
{
    /// <summary>An enlarged panel with film loss.</summary>
    public static byte[] Jpeg(int widthPx, int heightPx)
    {
        var panel = DemoPanelRenderer.Render("film_loss", 4711, new DemoPanelOptions());
        var rgb = new byte[widthPx * heightPx * 3];
        var noise = new Random(4711);
        for (var y = 0; y < heightPx; y++)
        {
            var sourceY = y * panel.HeightPx / heightPx;
            for (var x = 0; x < widthPx; x++)
            {
                var source = ((sourceY * panel.WidthPx) + (x * panel.WidthPx / widthPx)) * 3;
                var target = ((y * widthPx) + x) * 3;
                for (var c = 0; c < 3; c++)
                {
                    rgb[target + c] = (byte)Math.Clamp(panel.Rgb[source + c] + noise.Next(-6, 7), 0, 255);
                }
            }
        }

        return PhotoEncoder.EncodeJpeg(rgb, widthPx, heightPx, 90);
    }
}
