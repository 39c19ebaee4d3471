namespace CoatScan.Imaging.Jpeg;

/// <summary>How coarsely an earlier coding kept patterns, read from the pixels: its file is gone, and the one at hand may be fine.</summary>
/// <remarks>
/// <para>A messenger reduces a photo, and somebody stores the result again, finely or as PNG. The coefficients of its 8 x 8 blocks are still
/// whole multiples of the quantizer's step, but for the rounding of pixels to codes. The step is the one for which they are so most: the
/// mean cosine of 2 pi coefficient / step over all that are not zero is largest and near 1; fractions of the step fit less well, because
/// the rounding is then a larger part of them. Both signs and many values must occur, since the blocks of a regular lattice repeat.
/// Lower frequencies are read too, since of the finest often nothing is left; their steps are smaller, so that they understate.</para>
/// <para>Not seen: a coding before the photo was cropped by other than whole blocks, turned aslant or resized. Cost: at most 3600 blocks.
/// Source: Fan and de Queiroz, IEEE Trans. Image Processing 12(2), 2003 (idea, from memory); the limits are our own.</para>
/// </remarks>
internal static class EarlierCoding
{
    private const int BlockPx = 8;
    private const int BlocksPerSide = 60;
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
        for (int frequency = QuantizerSteps.FrequencyOf(wavelengthPx); frequency >= 1; frequency--)
        {
            lost = Math.Max(lost, LostAt(photo, frequency));
        }

        return lost;
    }

    private static double LostAt(DecodedPhoto photo, int frequency)
    {
        double[] cosines = [.. Enumerable.Range(0, BlockPx).Select(at => Math.Cos(((2 * at) + 1) * frequency * Math.PI / 16))];
        var across = new List<double>();
        var down = new List<double>();
        foreach (int top in Starts(photo.StoredHeightPx))
        {
            foreach (int left in Starts(photo.StoredWidthPx))
            {
                Add(photo, left, top, cosines, across, down);
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
