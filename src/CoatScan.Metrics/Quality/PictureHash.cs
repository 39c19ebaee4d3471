using System.Numerics;

namespace CoatScan.Metrics.Quality;

/// <summary>64 bits of a picture's coarse structure: few bits apart for one picture kept, resized or brightened, about 32 for two.</summary>
/// <remarks>
/// <para>Input: gray values as stored (not linear light), [0, 255], reduced to 32 x 32 px by averaging area.</para>
/// <para>Orthonormal two-dimensional DCT-II; of it the block of the 8 x 8 lowest frequencies with the constant term; a bit is 1
/// where the coefficient is above the median of the 64; row by row, the first bit is the highest.</para>
/// <para>Absent (null) for a picture too flat: where many coefficients lie at the median, noise and not the picture decides
/// their bits. A smooth ramp, for one, changes half of its bits with the brightness.</para>
/// <para>It sees no mirror image, no crop and no turn as the same picture, and nothing of fine texture. Equal structure is no
/// proof of an equal picture: two photos of smooth panels from one place can be close.</para>
/// <para>Cost: constant. Deterministic.</para>
/// <para>Source: the DCT hash as known in signal processing, its variant pinned by the values in TestData/science/quality.json.</para>
/// </remarks>
public static class PictureHash
{
    /// <summary>Width and height of the input, pixels.</summary>
    public const int SidePx = 32;

    /// <summary>A distance up to this, bits, [0, 64], counts as the same picture.</summary>
    /// <remarks>
    /// Measured on 71 real and 128 rendered photos of panels: stored again at JPEG quality 60, at half size or darker, at most
    /// 4 bits; at 0.3 of the size and quality 30, at most 6; any two different photos, at least 14 (16,290 pairs).
    /// </remarks>
    public const int SameDistanceBits = 6;

    private const int BlockSide = 8;

    // Coefficients of one gray level of noise in the reduced picture have this spread too, for the transform is orthonormal.
    // Averaging to 32 x 32 leaves less of what storing a photo again changes.
    private const double UnsureCoefficient = 1.0;
    private const int MostUnsureBits = 6;

    private static readonly double[] Basis = MakeBasis();

    /// <summary>The hash of a picture; null if it is too flat to have one.</summary>
    /// <exception cref="ArgumentException">The plane is not 32 x 32 px.</exception>
    public static ulong? Of(Plane gray)
    {
        ArgumentNullException.ThrowIfNull(gray);
        if (gray.Width != SidePx || gray.Height != SidePx)
        {
            throw new ArgumentException($"{gray.Width} x {gray.Height} px are not {SidePx} x {SidePx}.", nameof(gray));
        }

        var block = Transform(gray);
        var sorted = block.ToArray();
        Array.Sort(sorted);
        var median = (sorted[(block.Length / 2) - 1] + sorted[block.Length / 2]) / 2.0;

        var hash = 0UL;
        var unsure = 0;
        foreach (var coefficient in block)
        {
            hash = (hash << 1) | (coefficient > median ? 1UL : 0UL);
            unsure += Math.Abs(coefficient - median) < UnsureCoefficient ? 1 : 0;
        }

        return unsure > MostUnsureBits ? null : hash;
    }

    /// <summary>Bits in which two hashes differ, [0, 64].</summary>
    public static int Distance(ulong first, ulong second) => BitOperations.PopCount(first ^ second);

    private static double[] Transform(Plane gray)
    {
        var across = new double[SidePx * BlockSide];
        for (var y = 0; y < SidePx; y++)
        {
            var row = gray.Row(y);
            for (var u = 0; u < BlockSide; u++)
            {
                var sum = 0.0;
                for (var x = 0; x < SidePx; x++)
                {
                    sum += Basis[(u * SidePx) + x] * row[x];
                }

                across[(y * BlockSide) + u] = sum;
            }
        }

        var block = new double[BlockSide * BlockSide];
        for (var v = 0; v < BlockSide; v++)
        {
            for (var u = 0; u < BlockSide; u++)
            {
                var sum = 0.0;
                for (var y = 0; y < SidePx; y++)
                {
                    sum += Basis[(v * SidePx) + y] * across[(y * BlockSide) + u];
                }

                block[(v * BlockSide) + u] = sum;
            }
        }

        return block;
    }

    private static double[] MakeBasis()
    {
        var basis = new double[BlockSide * SidePx];
        for (var u = 0; u < BlockSide; u++)
        {
            var scale = Math.Sqrt((u == 0 ? 1.0 : 2.0) / SidePx);
            for (var x = 0; x < SidePx; x++)
            {
                basis[(u * SidePx) + x] = scale * Math.Cos(Math.PI * ((2 * x) + 1) * u / (2.0 * SidePx));
            }
        }

        return basis;
    }
}
