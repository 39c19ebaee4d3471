using CoatScan.Imaging.Normalizing;
using CoatScan.Metrics.Color;

namespace CoatScan.Imaging;

/// <summary>A reduced copy of a photo for people to look at.</summary>
/// <remarks>Turned as EXIF says, in sRGB, without metadata, and else unchanged: no white balance, no sharpening.</remarks>
public static class PhotoCopy
{
    // Fine enough to give the nearest code everywhere: the narrowest step of the codes is 20 of these.
    private const int LinearSteps = 65_535;

    private static readonly byte[] CodeOfLinear =
        [.. Enumerable.Range(0, LinearSteps + 1).Select(step => SrgbTransfer.ToByte((double)step / LinearSteps))];

    /// <summary>Writes the copy as JPEG; never enlarges.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="longestSidePx">Most pixels along the longer side, [16, 8192].</param>
    /// <param name="quality">Quality of the JPEG, [1, 100].</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static byte[] ToJpeg(DecodedPhoto photo, int longestSidePx, int quality, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(photo);
        ArgumentOutOfRangeException.ThrowIfLessThan(longestSidePx, 16);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(longestSidePx, 8192);
        double scale = Math.Min(1, (double)longestSidePx / Math.Max(photo.WidthPx, photo.HeightPx));
        ReducedPhoto reduced = AreaReducer.Reduce(photo, scale * scale * photo.WidthPx * photo.HeightPx, cancellationToken);
        GamutMapper.Apply(reduced, photo.ColorSpace.ToSrgb);
        float[] red = reduced.Red.Values;
        float[] green = reduced.Green.Values;
        float[] blue = reduced.Blue.Values;
        var rgb = new byte[3 * red.Length];
        for (int i = 0; i < red.Length; i++)
        {
            rgb[3 * i] = Code(red[i]);
            rgb[(3 * i) + 1] = Code(green[i]);
            rgb[(3 * i) + 2] = Code(blue[i]);
        }

        return PhotoEncoder.EncodeJpeg(rgb, reduced.Red.Width, reduced.Red.Height, quality);
    }

    private static byte Code(float linear) => CodeOfLinear[(int)((Math.Clamp(linear, 0f, 1f) * LinearSteps) + 0.5f)];
}
