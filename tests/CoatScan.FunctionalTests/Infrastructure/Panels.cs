using CoatScan.DemoPanels;
using CoatScan.Imaging;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Photos of invented panels, and photos that must be refused.</summary>
internal static class Panels
{
    private static readonly Lazy<byte[]> FilmLossPhoto = new(() => Render("film_loss", 90_001));
    private static readonly Lazy<byte[]> SoundPhoto = new(() => Render("sound", 90_002));
    private static readonly Lazy<byte[]> TextPhoto = new(() => Render("not_a_panel", 90_003));

    public static byte[] FilmLoss => FilmLossPhoto.Value;

    public static byte[] Sound => SoundPhoto.Value;

    public static byte[] NotAPanel => TextPhoto.Value;

    /// <summary>A photo of something that is no panel.</summary>
    public static byte[] OtherScene(ulong seed) => Render("not_a_panel", seed);

    /// <summary>A photo large enough to keep a worker busy: 12 megapixels of stripes.</summary>
    public static byte[] Large()
    {
        const int width = 4000;
        const int height = 3000;
        var rgb = new byte[width * height * 3];
        for (var i = 0; i < rgb.Length; i++)
        {
            rgb[i] = (byte)(100 + ((i / 3 % width / 40 % 2) * 60));
        }

        return PhotoEncoder.EncodeJpeg(rgb, width, height, 80);
    }

    public static PhotoInput Input(byte[] content, string name = "") =>
        new() { Content = ByteString.CopyFrom(content), DisplayName = name };

    private static byte[] Render(string visualClass, ulong seed) =>
        DemoPanelRenderer.Render(visualClass, seed, new DemoPanelOptions()).EncodeJpeg(88);
}
