using CoatScan.DemoPanels;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics.Quality;

namespace CoatScan.ImagingTests;

public sealed class PhotoIdentifierTests
{
    private static readonly PhotoIdentifier Identifier = new(new GuardedPhotoDecoder(new ImagingOptions()));

    [Fact]
    public void Identify_says_media_type_and_size()
    {
        byte[] rgb = TestPhotos.PatternRgb(80, 60);

        var jpeg = Identifier.Identify(PhotoEncoder.EncodeJpeg(rgb, 80, 60, 90), CancellationToken.None);
        var png = Identifier.Identify(PhotoEncoder.EncodePng(rgb, 80, 60), CancellationToken.None);

        Assert.Equal(("image/jpeg", 80, 60), (jpeg.MediaType, jpeg.WidthPx, jpeg.HeightPx));
        Assert.Equal(("image/png", 80, 60), (png.MediaType, png.WidthPx, png.HeightPx));
    }

    [Fact]
    public void Identify_no_photo_is_refused() => Assert.Equal(
        ErrorReason.PhotoFormatNotAllowed,
        Assert.Throws<CoatScanException>(() => Identifier.Identify("text"u8.ToArray(), CancellationToken.None)).Reason);

    // 31 px are too few for 32 cells.
    [Theory]
    [InlineData(31, 40, false)]
    [InlineData(40, 31, false)]
    [InlineData(32, 32, true)]
    [InlineData(33, 47, true)]
    public void Identify_hash_needs_32_px_a_side(int width, int height, bool hasHash)
    {
        var random = new Random(1);
        var rgb = new byte[3 * width * height];
        random.NextBytes(rgb);

        Assert.Equal(
            hasHash,
            Identifier.Identify(PhotoEncoder.EncodePng(rgb, width, height), CancellationToken.None).PictureHash is not null);
    }

    [Fact]
    public void HashOf_turned_photo_is_that_of_the_upright_one()
    {
        // Cells of whole pixels, so that turning changes no sum.
        const int width = 64;
        const int height = 96;
        var random = new Random(2);
        var upright = new byte[3 * width * height];
        random.NextBytes(upright);
        using var straight = DecodedPhoto.FromRgb(upright, width, height);
        ulong? expected = PhotoIdentifier.HashOf(straight);

        // Orientation 6: the first row as stored is the right-hand column of the upright picture.
        var stored = new byte[upright.Length];
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                upright.AsSpan(3 * ((y * width) + x), 3).CopyTo(stored.AsSpan(3 * (((width - 1 - x) * height) + y)));
            }
        }

        using var turned = DecodedPhoto.FromRgb(stored, height, width, orientation: 6);
        Assert.NotNull(expected);
        Assert.Equal(expected, PhotoIdentifier.HashOf(turned));
    }

    [Fact]
    public void HashOf_photos_of_different_panels_are_far_apart()
    {
        ulong[] hashes =
        [
            .. new[] { "rings", "crack_network", "sound", "runs", "rust", "chips" }
                .Select((name, i) => DemoPanelRenderer.Render(name, 7100 + (ulong)i, new DemoPanelOptions()).EncodeJpeg(88))
                .Select(bytes => Identifier.Identify(bytes, CancellationToken.None).PictureHash)
                .OfType<ulong>(),
        ];

        Assert.True(hashes.Length >= 4);
        for (int i = 0; i < hashes.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                Assert.True(PictureHash.Distance(hashes[i], hashes[j]) > PictureHash.SameDistanceBits);
            }
        }
    }
}
