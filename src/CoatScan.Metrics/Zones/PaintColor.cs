using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>The color that most of a panel has, linear light.</summary>
/// <param name="Red">Linear red, [0, 1].</param>
/// <param name="Green">Linear green.</param>
/// <param name="Blue">Linear blue.</param>
/// <param name="Share">Share of the cells near that hue and chroma, [0, 1].</param>
/// <remarks>
/// The fullest square of 3 x 3 bins of 4 units in a*, b*; lightness is left open, because shade and reflection change it most. Mean of its
/// cells. Source: mode of a histogram, common practice; the bins are our own.
/// </remarks>
internal readonly record struct PaintColor(double Red, double Green, double Blue, double Share)
{
    private const int Bins = 64;
    private const float UnitsPerBin = 4.0f;

    /// <summary>The paint in CIELAB.</summary>
    internal LabColor Lab => CieLab.FromLinear(Red, Green, Blue);

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static PaintColor Of(LabPlanes lab, Plane red, Plane green, Plane blue)
    {
        var counts = new int[Bins * Bins];
        var (a, b) = (lab.AStar.Values, lab.BStar.Values);
        for (var i = 0; i < a.Length; i++)
        {
            counts[(Bin(b[i]) * Bins) + Bin(a[i])]++;
        }

        var (best, most) = ((1, 1), -1);
        for (var row = 1; row < Bins - 1; row++)
        {
            for (var column = 1; column < Bins - 1; column++)
            {
                var sum = Around(counts, row, column);
                (best, most) = sum > most ? ((column, row), sum) : (best, most);
            }
        }

        double r = 0, g = 0, bl = 0;
        for (var i = 0; i < a.Length; i++)
        {
            if (Math.Abs(Bin(a[i]) - best.Item1) <= 1 && Math.Abs(Bin(b[i]) - best.Item2) <= 1)
            {
                r += red.Values[i];
                g += green.Values[i];
                bl += blue.Values[i];
            }
        }

        var count = Math.Max(1, most);
        return new(r / count, g / count, bl / count, (double)most / a.Length);
    }

    private static int Bin(float value) => Math.Clamp((int)(value / UnitsPerBin + (Bins / 2)), 0, Bins - 1);

    private static int Around(int[] counts, int row, int column)
    {
        var sum = 0;
        for (var y = row - 1; y <= row + 1; y++)
        {
            sum += counts[(y * Bins) + column - 1] + counts[(y * Bins) + column] + counts[(y * Bins) + column + 1];
        }

        return sum;
    }
}
