namespace CoatScan.Imaging.Jpeg;

/// <summary>How coarsely an earlier coding kept patterns, read from the pixels: its file is gone, and the one at hand may be fine.</summary>
/// <remarks>
/// <para>A messenger reduces a photo, and somebody stores the result again, finely or as PNG. The coefficients of its 8 x 8 blocks are still
/// whole multiples of the quantizer's step, but for the rounding of pixels to codes. The step is the one for which they are so most: the
/// mean cosine of 2 pi coefficient / step over all that are not zero is largest and near 1; fractions of the step fit less well, because
/// the rounding is then a larger part of them. Both signs and many values must occur, since the blocks of a regular lattice repeat.
/// Lower frequencies are read too, since of the finest often nothing is left; their steps are smaller, so that they understate.</para>
/// <para>A photo that was cropped since has its old blocks elsewhere: where steps of green between neighboring pixels are largest, every eight pixels. Blocks are read
/// from the corner and, if that is another place, from there too; what neither explains is not stated.</para>
/// <para>Not assessable: a coding before the photo was turned aslant or resized, which leaves no block whole. Cost: at most 7200 blocks.
/// Source: Fan and de Queiroz, IEEE Trans. Image Processing 12(2), 2003 (idea, from memory); the limits are our own.</para>
/// </remarks>
internal static class EarlierCoding
{
    private const int BlockPx = 8;
    private const int BlocksPerSide = 60;
    private const int LinesPerSide = 240;
    private const int FinestStep = 16;
    private const int CoarsestStep = 255;
    private const int LeastCoefficients = 40;
    private const double LeastShareOfSign = 0.2;
    private const double LeastAgreement = 0.9;

    /// <summary>Amplitude below which a pattern was lost, codes of 0 to 255, as <see cref="QuantizerSteps.LostAmplitude"/>; 0 where no
    /// coarse coding shows.</summary>
    /// <param name="photo">The photo as stored.</param>
    /// <param name="wavelengthPx">Wavelength of the pattern in the stored photo, pixels.</param>
    public static double LostAmplitude(DecodedPhoto photo, double wavelengthPx)
    {
        double lost = 0;
        foreach (var (left, top) in new[] { (0, 0), (PhaseAcross(photo), PhaseDown(photo)) }.Distinct())
        {
            for (int frequency = QuantizerSteps.FrequencyOf(wavelengthPx); frequency >= 1; frequency--)
            {
                lost = Math.Max(lost, LostAt(photo, frequency, left, top));
            }
        }

        return lost;
    }

    // First column of a whole block, [0, 7].
    private static int PhaseAcross(DecodedPhoto photo)
    {
        Span<double> steps = stackalloc double[BlockPx];
        foreach (int y in Spread(photo.StoredHeightPx))
        {
            ReadOnlySpan<byte> row = photo.StoredRow(y);
            for (int x = 2; x < photo.StoredWidthPx - 1; x++)
            {
                steps[x % BlockPx] += Step(Green(row, x - 2), Green(row, x - 1), Green(row, x), Green(row, x + 1));
            }
        }

        return Largest(steps);
    }

    private static int PhaseDown(DecodedPhoto photo)
    {
        Span<double> steps = stackalloc double[BlockPx];
        int[] columns = [.. Spread(photo.StoredWidthPx)];
        for (int y = 2; y < photo.StoredHeightPx - 1; y++)
        {
            ReadOnlySpan<byte> before = photo.StoredRow(y - 2);
            ReadOnlySpan<byte> above = photo.StoredRow(y - 1);
            ReadOnlySpan<byte> row = photo.StoredRow(y);
            ReadOnlySpan<byte> below = photo.StoredRow(y + 1);
            foreach (int x in columns)
            {
                steps[y % BlockPx] += Step(Green(before, x), Green(above, x), Green(row, x), Green(below, x));
            }
        }

        return Largest(steps);
    }

    private static int Green(ReadOnlySpan<byte> row, int x) => row[(3 * x) + 1];

    // The step in the middle less the mean of those beside it: an edge of the panel spreads over all three.
    private static double Step(int first, int second, int third, int fourth) =>
        Math.Abs(third - second) - (0.5 * (Math.Abs(second - first) + Math.Abs(fourth - third)));

    private static int Largest(ReadOnlySpan<double> steps)
    {
        int largest = 0;
        for (int i = 1; i < steps.Length; i++)
        {
            largest = steps[i] > steps[largest] ? i : largest;
        }

        return largest;
    }

    private static IEnumerable<int> Spread(int length)
    {
        int count = Math.Min(length, LinesPerSide);
        for (int i = 0; i < count; i++)
        {
            yield return (int)((long)i * length / count);
        }
    }

    private static double LostAt(DecodedPhoto photo, int frequency, int left, int top)
    {
        double[] cosines = [.. Enumerable.Range(0, BlockPx).Select(at => Math.Cos(((2 * at) + 1) * frequency * Math.PI / 16))];
        var across = new List<double>();
        var down = new List<double>();
        foreach (int y in Starts(photo.StoredHeightPx - top))
        {
            foreach (int x in Starts(photo.StoredWidthPx - left))
            {
                Add(photo, left + x, top + y, cosines, across, down);
            }
        }

        return Step(across) is { } first && Step(down) is { } second ? QuantizerSteps.LostAmplitude((first + second) / 2.0) : 0;
    }

    private static IEnumerable<int> Starts(int length)
    {
        int blocks = length / BlockPx;
        int count = Math.Min(blocks, BlocksPerSide);
        for (int i = 0; i < count; i++)
        {
            yield return (int)((long)i * blocks / count) * BlockPx;
        }
    }

    // Orthonormal DCT (ITU-T T.81, A.3.3) of Rec. 601 luma at one frequency along rows and along columns.
    private static void Add(DecodedPhoto photo, int left, int top, double[] cosines, List<double> across, List<double> down)
    {
        double alongX = 0;
        double alongY = 0;
        for (int y = 0; y < BlockPx; y++)
        {
            ReadOnlySpan<byte> row = photo.StoredRow(top + y).Slice(3 * left, 3 * BlockPx);
            double sum = 0;
            for (int x = 0; x < BlockPx; x++)
            {
                double luma = (0.299 * row[3 * x]) + (0.587 * row[(3 * x) + 1]) + (0.114 * row[(3 * x) + 2]);
                sum += luma;
                alongX += luma * cosines[x];
            }

            alongY += sum * cosines[y];
        }

        across.Add(alongX / Math.Sqrt(32));
        down.Add(alongY / Math.Sqrt(32));
    }

    private static double? Step(List<double> coefficients)
    {
        if (coefficients.Select(coefficient => Math.Round(coefficient, 2)).Distinct().Count() < LeastCoefficients)
        {
            return null;
        }

        double? best = null;
        double most = LeastAgreement;
        for (int step = FinestStep; step <= CoarsestStep; step++)
        {
            double agreement = Agreement(coefficients, step);
            if (agreement > most)
            {
                (best, most) = (step, agreement);
            }
        }

        return best;
    }

    // How well the coefficients are multiples of a step, at most 1; 0 where too few or too uniform ones tell.
    private static double Agreement(List<double> coefficients, int step)
    {
        int count = 0;
        int positive = 0;
        double sum = 0;
        foreach (double coefficient in coefficients)
        {
            double multiple = Math.Abs(coefficient) / step;
            if (multiple > 0.5)
            {
                count++;
                positive += coefficient > 0 ? 1 : 0;
                sum += Math.Cos(2 * Math.PI * multiple);
            }
        }

        return count >= LeastCoefficients
            && Math.Min(positive, count - positive) >= LeastShareOfSign * count
                ? sum / count
                : 0;
    }
}
