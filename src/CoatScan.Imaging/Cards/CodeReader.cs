using CoatScan.Imaging.Color;
using CoatScan.Metrics;
using ZXing.Common;
using ZXing.QrCode.Internal;

namespace CoatScan.Imaging.Cards;

/// <summary>Looks for a code in a plane of light and reads it.</summary>
internal static class CodeReader
{
    // The search costs about as much as it sees pixels. With a million, a card on a twentieth of the photo has four pixels a module.
    private const double SearchPx = 1e6;

    // The second look averages four pixels into one: noise and fine texture go, large codes stay.
    private const int Looks = 2;

    // Below this no code of 25 modules fits in.
    private const int SmallestSidePx = 60;

    // Least mean difference of tone between light and dark modules, of [0, 1]. No source.
    private const double MinScore = 0.05;

    // Modules around one of which the lightest and the darkest say where the border between light and dark is.
    private const int ThresholdReach = 2;

    // Where in a module its tone is taken: in the middle fifths, away from its neighbors.
    private static readonly (double X, double Y)[] Spots = [(0, 0), (-0.2, 0), (0.2, 0), (0, -0.2), (0, 0.2)];

    /// <summary>The message of a card's code and where its modules are; null if there is none.</summary>
    /// <param name="light">Linear light, [0, 1].</param>
    public static CodeSighting? Read(Plane light)
    {
        // From 0.7 up the step goes to the next whole number: a search of half a million pixels misses small cards.
        int step = Math.Max(1, (int)(Math.Sqrt(light.Values.Length / SearchPx) + 0.3));
        for (int look = 0; look < Looks; look++, step *= 2)
        {
            int width = light.Width / step;
            int height = light.Height / step;
            if (Math.Min(width, height) < SmallestSidePx)
            {
                return null;
            }

            foreach (FinderPatterns patterns in FinderScan.Find(Tones(light, step, width, height), width, height, step))
            {
                if (Read(light, patterns) is { } sighting)
                {
                    return sighting;
                }
            }
        }

        return null;
    }

    private static CodeSighting? Read(Plane light, FinderPatterns patterns)
    {
        var fits = CodeFrame.All
            .Select(frame => (frame.Side, Fit: frame.Fit(light, patterns)))
            .Where(one => one.Fit.Score > MinScore)
            .OrderByDescending(one => one.Fit.Score);
        foreach (var (side, (map, _)) in fits)
        {
            if (new Decoder().decode(Sample(light, map, side), null)?.Text is { } text && CardMessage.Parse(text) is { } message)
            {
                return new CodeSighting(message, map);
            }
        }

        return null;
    }

    private static BitMatrix Sample(Plane light, in Matrix3 map, int side)
    {
        var tones = new float[side, side];
        for (int y = 0; y < side; y++)
        {
            for (int x = 0; x < side; x++)
            {
                foreach (var (dx, dy) in Spots)
                {
                    var (px, py) = PlaneMapping.Map(map, x + 0.5 + dx, y + 0.5 + dy);
                    int column = Math.Clamp((int)px, 0, light.Width - 1);
                    int row = Math.Clamp((int)py, 0, light.Height - 1);
                    tones[y, x] += MathF.Sqrt(light.Values[(row * light.Width) + column]);
                }
            }
        }

        var modules = new BitMatrix(side);
        for (int y = 0; y < side; y++)
        {
            for (int x = 0; x < side; x++)
            {
                modules[x, y] = tones[y, x] < Threshold(tones, x, y);
            }
        }

        return modules;
    }

    private static float Threshold(float[,] tones, int x, int y)
    {
        int last = tones.GetLength(0) - 1;
        float darkest = float.MaxValue;
        float lightest = float.MinValue;
        for (int row = Math.Max(0, y - ThresholdReach); row <= Math.Min(last, y + ThresholdReach); row++)
        {
            for (int column = Math.Max(0, x - ThresholdReach); column <= Math.Min(last, x + ThresholdReach); column++)
            {
                darkest = Math.Min(darkest, tones[row, column]);
                lightest = Math.Max(lightest, tones[row, column]);
            }
        }

        return (darkest + lightest) / 2;
    }

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
