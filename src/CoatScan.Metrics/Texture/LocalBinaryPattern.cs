using System.Numerics;

namespace CoatScan.Metrics.Texture;

/// <summary>Which of the eight points around a pixel, one pixel away, are at least as light: a pattern of eight bits.</summary>
/// <remarks>
/// Bit 0 is to the right, then on against the clock; points between pixels are interpolated. A pattern is uniform if it changes at most
/// twice around the circle: flat paint, an edge, a corner, a speck. Grit and noise make others. Source: Ojala, Pietikainen and Maenpaa, IEEE
/// Trans. PAMI 24(7), 971-987, 2002.
/// </remarks>
internal static class LocalBinaryPattern
{
    private const int Points = 8;
    private const int NotUniform = Points + 1;

    private static readonly double Diagonal = Math.Sqrt(0.5);

    /// <summary>The pattern of a pixel that has eight neighbors.</summary>
    internal static byte At(Plane plane, int x, int y)
    {
        var center = plane[x, y];
        var bits = 0;
        bits |= plane[x + 1, y] >= center ? 1 : 0;
        bits |= Between(plane, x, y, 1, -1) >= center ? 2 : 0;
        bits |= plane[x, y - 1] >= center ? 4 : 0;
        bits |= Between(plane, x, y, -1, -1) >= center ? 8 : 0;
        bits |= plane[x - 1, y] >= center ? 16 : 0;
        bits |= Between(plane, x, y, -1, 1) >= center ? 32 : 0;
        bits |= plane[x, y + 1] >= center ? 64 : 0;
        bits |= Between(plane, x, y, 1, 1) >= center ? 128 : 0;
        return (byte)bits;
    }

    /// <summary>Number of points that are at least as light, [0, 8], of a uniform pattern; 9 for any other. The same however it is turned.</summary>
    internal static int Uniform(byte pattern)
    {
        var turned = (byte)((pattern << 1) | (pattern >> (Points - 1)));
        return BitOperations.PopCount((uint)(pattern ^ turned)) <= 2 ? BitOperations.PopCount(pattern) : NotUniform;
    }

    internal static bool IsUniform(byte pattern) => Uniform(pattern) != NotUniform;

    private static double Between(Plane plane, int x, int y, int stepX, int stepY)
    {
        var along = ((1.0 - Diagonal) * plane[x, y]) + (Diagonal * plane[x + stepX, y]);
        var beyond = ((1.0 - Diagonal) * plane[x, y + stepY]) + (Diagonal * plane[x + stepX, y + stepY]);
        return ((1.0 - Diagonal) * along) + (Diagonal * beyond);
    }
}
