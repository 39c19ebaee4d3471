using System.Buffers;
using System.Numerics;
using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Zones;

/// <summary>The warm patches of a panel: rust, even red-brown, stains.</summary>
/// <param name="Rust">Cells of rust.</param>
/// <param name="Even">Cells of rust's color in patches as even as paint.</param>
/// <param name="Stain">Cells of stain.</param>
/// <param name="UndecidedCells">Cells of rust in patches too small to tell whether they are even.</param>
/// <param name="Patches">Connected patches of rust of at least 3 cells, cells.</param>
/// <remarks>
/// A patch of 100 cells or more is even if the lightness inside its rim scatters by less than 2.5 L*. Smaller ones of 25 cells or more that
/// scatter as little are undecided: a photo with more pixels might show them to be even. Loose and strict cells of even patches
/// follow the share that even patches have of all. Source: the limits are our own.
/// </remarks>
internal sealed record RustReading(
    ColorShare Rust, ColorShare Even, ColorShare Stain, int UndecidedCells, List<Component> Patches)
{
    private const float Slack = 3.0f;
    private const int LeastPatchCells = 3;
    private const int LeastJudgedCells = 100;
    private const int LeastUndecidedCells = 25;
    private const double LeastScatter = 2.5;

    internal static RustReading None { get; } = new(default, default, default, 0, []);

    internal static RustReading Of(ColorScene scene, float leastWarmth)
    {
        var mask = ArrayPool<bool>.Shared.Rent(scene.Clipped.Length);
        try
        {
            var (rust, stain) = Classify(scene, leastWarmth, mask);
            return Divide(scene, mask.AsSpan(0, scene.Clipped.Length), rust, stain, coolWarmth: leastWarmth - WarmColors.LeastExcessWarmth);
        }
        finally
        {
            ArrayPool<bool>.Shared.Return(mask);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static (ColorShare Rust, ColorShare Stain) Classify(ColorScene scene, float leastWarmth, bool[] mask)
    {
        var (l, a, b) = (scene.Lab.Lightness.Values, scene.Lab.AStar.Values, scene.Lab.BStar.Values);
        var (rust, stain) = (default(Tally), default(Tally));
        Span<float> padded = stackalloc float[Vector<float>.Count];
        mask.AsSpan(0, l.Length).Clear();
        for (var i = 0; i < l.Length; i += Vector<float>.Count)
        {
            var count = Math.Min(Vector<float>.Count, l.Length - i);
            var (light, red, yellow) = count == Vector<float>.Count
                ? (new Vector<float>(l, i), new Vector<float>(a, i), new Vector<float>(b, i))
                : (Rest(l.AsSpan(i), padded), Rest(a.AsSpan(i), padded), Rest(b.AsSpan(i), padded));

            // Most of a panel is too cool for either.
            if (Vector.LessThanAll(WarmColors.Warmth(red, yellow), new Vector<float>(leastWarmth - Slack)))
            {
                continue;
            }

            var isSeen = IsSeen(scene.Clipped.AsSpan(i, count));
            var margin = WarmColors.RustMargin(light, red, yellow, leastWarmth);
            var isRust = Vector.BitwiseAnd(isSeen, Vector.GreaterThanOrEqual(margin, Vector<float>.Zero));
            rust.Add(margin, isSeen);
            stain.Add(WarmColors.StainMargin(light, red, yellow, leastWarmth), isSeen);
            for (var lane = 0; isRust != Vector<int>.Zero && lane < count; lane++)
            {
                mask[i + lane] = isRust[lane] != 0;
            }
        }

        return (rust.Share, stain.Share);
    }

    private static Vector<float> Rest(ReadOnlySpan<float> values, Span<float> padded)
    {
        values.CopyTo(padded);
        return new(padded);
    }

    // All bits where a cell is there and not clipped.
    private static Vector<int> IsSeen(ReadOnlySpan<bool> clipped)
    {
        if (clipped.Length == Vector<int>.Count && !clipped.Contains(true))
        {
            return -Vector<int>.One;
        }

        Span<int> seen = stackalloc int[Vector<int>.Count];
        for (var lane = 0; lane < clipped.Length; lane++)
        {
            seen[lane] = clipped[lane] ? 0 : -1;
        }

        return new(seen);
    }

    private static RustReading Divide(
        ColorScene scene, Span<bool> mask, ColorShare all, ColorShare stain, float coolWarmth)
    {
        var found = ConnectedComponents.Find(mask, scene.Width, scene.Height, Connectivity.Eight);
        var scatter = Scatter(scene.Lab.Lightness, found);
        var mixed = MixedCells(scene.Lab, found, mask, coolWarmth);
        var (even, evenRim, rustRim, evenMixed, rustMixed) = (0.0, 0.0, 0.0, 0, 0);
        var undecided = 0;
        var patches = new List<Component>();
        for (var i = 0; i < found.Components.Count; i++)
        {
            var patch = found.Components[i];
            var rim = Math.PI * patch.EquivalentDiameterPx;
            if (patch.AreaPx >= LeastJudgedCells && scatter[i] < LeastScatter)
            {
                even += patch.AreaPx;
                evenRim += rim;
                evenMixed += mixed[i];
                continue;
            }

            undecided += patch.AreaPx >= LeastUndecidedCells && scatter[i] < LeastScatter ? patch.AreaPx : 0;
            rustRim += rim;
            rustMixed += mixed[i];
            if (patch.AreaPx >= LeastPatchCells)
            {
                patches.Add(patch);
            }
        }

        var share = all.Nominal > 0.0 ? even / all.Nominal : 0.0;
        return new(
            Share(all, 1.0 - share, rustMixed, rustRim),
            Share(all, share, evenMixed, evenRim),
            stain,
            undecided,
            patches);
    }

    /// <summary>Counts cells inside of the limits, and of looser and stricter ones.</summary>
    private struct Tally
    {
        private Vector<int> _nominal;
        private Vector<int> _loose;
        private Vector<int> _strict;

        internal readonly ColorShare Share => new(Vector.Sum(_nominal), Vector.Sum(_loose), Vector.Sum(_strict), 0.0);

        // A comparison that holds is -1.
        internal void Add(Vector<float> margin, Vector<int> isSeen)
        {
            _nominal -= Vector.BitwiseAnd(isSeen, Vector.GreaterThanOrEqual(margin, Vector<float>.Zero));
            _loose -= Vector.BitwiseAnd(isSeen, Vector.GreaterThanOrEqual(margin, new Vector<float>(-Slack)));
            _strict -= Vector.BitwiseAnd(isSeen, Vector.GreaterThanOrEqual(margin, new Vector<float>(Slack)));
        }
    }

    private static ColorShare Share(ColorShare all, double share, int mixed, double rim) => new(
        (all.Nominal * share) + mixed, (all.Loose * share) + mixed, (all.Strict * share) + mixed, rim);

    // Cells at the rim of a patch that are more rust than paint, though their mixture is too pale: more than half as warm as the patch.
    private static int[] MixedCells(LabPlanes lab, ComponentSet found, Span<bool> mask, float coolWarmth)
    {
        var warmth = new double[found.Components.Count];
        foreach (var run in found.Runs)
        {
            for (var x = run.StartX; x < run.EndX; x++)
            {
                warmth[run.Component] += WarmColors.Warmth(lab.AStar[x, run.Y], lab.BStar[x, run.Y]);
            }
        }

        var mixed = new int[warmth.Length];
        foreach (var run in found.Runs)
        {
            var half = 0.5f * (coolWarmth + (float)(warmth[run.Component] / found.Components[run.Component].AreaPx));
            for (var y = Math.Max(0, run.Y - 1); y <= Math.Min(lab.Lightness.Height - 1, run.Y + 1); y++)
            {
                for (var x = Math.Max(0, run.StartX - 1); x < Math.Min(lab.Lightness.Width, run.EndX + 1); x++)
                {
                    ref var isTaken = ref mask[(y * lab.Lightness.Width) + x];
                    if (!isTaken && WarmColors.Warmth(lab.AStar[x, y], lab.BStar[x, y]) > half)
                    {
                        isTaken = true;
                        mixed[run.Component]++;
                    }
                }
            }
        }

        return mixed;
    }

    // Standard deviation of lightness in each component, without the ends of its runs, where paint is mixed in.
    private static double[] Scatter(Plane lightness, ComponentSet found)
    {
        var sums = new (double Sum, double Square, int Count)[found.Components.Count];
        foreach (var run in found.Runs)
        {
            var (sum, square) = (0.0, 0.0);
            for (var x = run.StartX + 1; x < run.EndX - 1; x++)
            {
                double value = lightness[x, run.Y];
                sum += value;
                square += value * value;
            }

            ref var total = ref sums[run.Component];
            total = (total.Sum + sum, total.Square + square, total.Count + Math.Max(0, run.Length - 2));
        }

        return Array.ConvertAll(sums, total => total.Count == 0
            ? double.MaxValue
            : Math.Sqrt(Math.Max(0.0, (total.Square / total.Count) - Math.Pow(total.Sum / total.Count, 2.0))));
    }
}
