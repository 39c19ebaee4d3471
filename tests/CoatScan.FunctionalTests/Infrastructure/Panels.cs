using CoatScan.DemoPanels;
using CoatScan.Imaging;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Photos of invented panels, and photos that must be refused.</summary>
internal static class Panels
{
    private static readonly Lazy<byte[]> FilmLossPhoto = new(() => Render("film_loss", 90_001));
    private static readonly Lazy<byte[]> SoundPhoto = new(() => Render("sound", 12));
    private static readonly Lazy<byte[]> SecondSoundPhoto = new(() => Render("sound", 31));
    private static readonly Lazy<byte[]> TextPhoto = new(() => Render("not_a_panel", 90_003));

    public static byte[] FilmLoss => FilmLossPhoto.Value;

    public static byte[] Sound => SoundPhoto.Value;

    public static byte[] NotAPanel => TextPhoto.Value;

    /// <summary>Another photo in which nothing is wrong.</summary>
    public static byte[] SoundFromElsewhere => SecondSoundPhoto.Value;

    /// <summary>A demo photo, as it comes with the source.</summary>
    public static byte[] Demo(string name) => File.ReadAllBytes(Page.Window.Photo(name));

    /// <summary>A photo of something that is no panel.</summary>
    public static byte[] OtherScene(ulong seed) => Render("not_a_panel", seed);

    /// <summary>A picture as wallpapers are: blue at the top, paler at the bottom, nothing on it.</summary>
    public static byte[] Gradient()
    {
        const int width = 1200;
        const int height = 900;
        var rgb = new byte[width * height * 3];
        for (var i = 0; i < width * height; i++)
        {
            var pale = i / width * 100 / height;
            (rgb[3 * i], rgb[(3 * i) + 1], rgb[(3 * i) + 2]) = ((byte)(40 + pale), (byte)(80 + pale), (byte)(140 + pale));
        }

        return PhotoEncoder.EncodeJpeg(rgb, width, height, 92);
    }

    /// <summary>A gray panel with so many dark specks, of 6 to 12 px, none near another and none in rows.</summary>
    public static byte[] Specks(int count)
    {
        const int width = 1600;
        const int height = 1200;
        var random = new Random(7);
        var rgb = new byte[width * height * 3];
        for (var i = 0; i < width * height; i++)
        {
            var gray = (byte)(128 + random.Next(5));
            (rgb[3 * i], rgb[(3 * i) + 1], rgb[(3 * i) + 2]) = (gray, gray, (byte)(gray + 12));
        }

        var specks = new List<(int X, int Y)>();
        while (specks.Count < count)
        {
            var (x, y) = (random.Next(30, width - 30), random.Next(30, height - 30));
            if (specks.Any(speck => Math.Abs(speck.X - x) + Math.Abs(speck.Y - y) < 34))
            {
                continue;
            }

            specks.Add((x, y));
            var radius = random.Next(3, 7);
            for (var i = 0; i < (2 * radius + 1) * (2 * radius + 1); i++)
            {
                var (dx, dy) = ((i % ((2 * radius) + 1)) - radius, (i / ((2 * radius) + 1)) - radius);
                if ((dx * dx) + (dy * dy) <= radius * radius)
                {
                    rgb.AsSpan(3 * (((y + dy) * width) + x + dx), 3).Fill(40);
                }
            }
        }

        return PhotoEncoder.EncodeJpeg(rgb, width, height, 95);
    }

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
