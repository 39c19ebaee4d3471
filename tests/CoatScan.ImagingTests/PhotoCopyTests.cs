using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

public sealed class PhotoCopyTests
{
    [Theory]
    [InlineData(1, 200, 100)]
    [InlineData(6, 100, 200)]
    public void ToJpeg_is_upright_reduced_and_of_the_same_colors(int orientation, int widthPx, int heightPx)
    {
        // The left half red, the right half blue.
        var rgb = new byte[3 * 400 * 200];
        for (int i = 0; i < rgb.Length / 3; i++)
        {
            rgb[(3 * i) + (i % 400 < 200 ? 0 : 2)] = 200;
        }

        using var photo = DecodedPhoto.FromRgb(rgb, 400, 200, orientation);
        byte[] jpeg = PhotoCopy.ToJpeg(photo, 200, 90, TestContext.Current.CancellationToken);

        using var copy = new GuardedPhotoDecoder(new ImagingOptions()).Decode(jpeg, TestContext.Current.CancellationToken);
        Assert.Equal((widthPx, heightPx, 1), (copy.WidthPx, copy.HeightPx, copy.Orientation));
        Assert.Null(copy.CaptureTime);

        // Turned clockwise by 90 degrees (6), what was left is on top.
        byte[] first = copy.StoredRow(10).Slice(3 * 10, 3).ToArray();
        byte[] last = copy.StoredRow(heightPx - 10).Slice(3 * (widthPx - 10), 3).ToArray();
        Assert.Equal([200.0, 0, 0], first.Select(one => (double)one), (a, b) => Math.Abs(a - b) <= 6);
        Assert.Equal([0.0, 0, 200], last.Select(one => (double)one), (a, b) => Math.Abs(a - b) <= 6);
    }

    [Fact]
    public void ToJpeg_never_enlarges()
    {
        using var photo = DecodedPhoto.FromRgb(new byte[3 * 40 * 30], 40, 30);

        using var copy = new GuardedPhotoDecoder(new ImagingOptions()).Decode(
            PhotoCopy.ToJpeg(photo, 1200, 82, TestContext.Current.CancellationToken), TestContext.Current.CancellationToken);

        Assert.Equal((40, 30), (copy.WidthPx, copy.HeightPx));
    }

    [Theory]
    [InlineData(15)]
    [InlineData(8193)]
    public void ToJpeg_size_out_of_range_is_refused(int longestSidePx)
    {
        using var photo = DecodedPhoto.FromRgb(new byte[3], 1, 1);

        Assert.Throws<ArgumentOutOfRangeException>(nameof(longestSidePx), () =>
            PhotoCopy.ToJpeg(photo, longestSidePx, 82, TestContext.Current.CancellationToken));
    }
}
