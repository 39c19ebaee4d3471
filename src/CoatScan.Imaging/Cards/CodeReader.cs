using CoatScan.Metrics;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace CoatScan.Imaging.Cards;

/// <summary>Looks for a code in a plane of light and reads it.</summary>
internal static class CodeReader
{
    // The search costs about as much as it sees pixels. With a million, a card on a twentieth of the photo has four pixels a module.
    private const double SearchPx = 1e6;

    /// <summary>The message of a card's code and where its finder patterns are; null if there is none.</summary>
    /// <param name="light">Linear light, [0, 1].</param>
    public static CodeSighting? Read(Plane light)
    {
        // From 0.7 up the step goes to the next whole number: a search of half a million pixels misses small cards.
        int step = Math.Max(1, (int)(Math.Sqrt(light.Values.Length / SearchPx) + 0.3));
        int width = light.Width / step;
        int height = light.Height / step;
        var source = new RGBLuminanceSource(
            Tones(light, step, width, height), width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        Result? result = new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)));
        if (result?.Text is not { } text || CardMessage.Parse(text) is not { } message || result.ResultPoints.Length < 3)
        {
            return null;
        }

        // Order of the library: lower left, upper left, upper right.
        var points = result.ResultPoints;
        return new CodeSighting(message, Place(points[1], step), Place(points[2], step), Place(points[0], step));
    }

    private static (double X, double Y) Place(ResultPoint point, int step) => (point.X * step, point.Y * step);

    // The root brings light near to evenly spaced tones, in which the reader looks for edges.
    private static byte[] Tones(Plane light, int step, int width, int height)
    {
        var tones = new byte[width * height];
        var sums = new float[width];
        float share = 1f / (step * step);
        for (int y = 0; y < height; y++)
        {
            sums.AsSpan().Clear();
            for (int row = 0; row < step; row++)
            {
                var values = light.Values.AsSpan(((y * step) + row) * light.Width, width * step);
                for (int x = 0, i = 0; x < sums.Length; x++)
                {
                    float sum = values[i++];
                    for (int column = 1; column < step; column++)
                    {
                        sum += values[i++];
                    }

                    sums[x] += sum;
                }
            }

            var line = tones.AsSpan(y * width, width);
            for (int x = 0; x < line.Length; x++)
            {
                line[x] = (byte)(255 * MathF.Sqrt(Math.Clamp(sums[x] * share, 0, 1)));
            }
        }

        return tones;
    }
}
