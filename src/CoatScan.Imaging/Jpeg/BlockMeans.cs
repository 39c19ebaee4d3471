using System.Collections.Immutable;

namespace CoatScan.Imaging.Jpeg;

/// <summary>Means of the blocks of a JPEG as the file has them, in fractions of a code: decoders round every sample to whole codes.</summary>
/// <remarks>
/// The first coefficient of an 8 x 8 block is eight times its mean (orthonormal DCT, ITU-T T.81 A.3.3), quantized in whole steps: at
/// quality 90 with the tables of annex K the mean is known in steps of 3/8 code. Mean of samples over a rectangle of whole units.
/// </remarks>
internal sealed class BlockMeans
{
    private const int BlockPx = 8;
    private const double MiddleOfBrightness = 128;

    private readonly ImmutableArray<Component> _components;

    private BlockMeans(ImmutableArray<Component> components)
    {
        _components = components;
        UnitWidthPx = BlockPx * components.Max(one => one.Horizontal);
        UnitHeightPx = BlockPx * components.Max(one => one.Vertical);
    }

    /// <summary>Width of the area that all components share whole blocks of, pixels.</summary>
    public int UnitWidthPx { get; }

    /// <summary>Height of it.</summary>
    public int UnitHeightPx { get; }

    /// <summary>Step of a block's mean in brightness, codes.</summary>
    public double BrightnessStep => _components[0].Step;

    /// <summary>The coarser of the two steps of a block's mean color difference, codes.</summary>
    public double ColorStep => Math.Max(_components[1].Step, _components[2].Step);

    /// <summary>From what the scans brought; null without a table.</summary>
    public static BlockMeans? Of(IReadOnlyList<ComponentProgress> progress, IReadOnlyList<QuantizerSteps?> quantizers)
    {
        var components = ImmutableArray.CreateBuilder<Component>(progress.Count);
        foreach (ComponentProgress one in progress)
        {
            if (quantizers[one.Component.Quantizer] is not { } steps)
            {
                return null;
            }

            components.Add(new Component(
                one.Component.Horizontal, one.Component.Vertical, one.StrideBlocks, one.Means, steps.First / (double)BlockPx));
        }

        return new BlockMeans(components.ToImmutable());
    }

    /// <summary>Mean of brightness, [0, 255], and of the two color differences, 0 for gray, over a rectangle of whole units.</summary>
    /// <param name="fromX">First unit, column.</param>
    /// <param name="fromY">First unit, row.</param>
    /// <param name="toX">Column behind the last unit.</param>
    /// <param name="toY">Row behind the last unit.</param>
    public (double Y, double Cb, double Cr) Over(int fromX, int fromY, int toX, int toY) => (
        _components[0].Over(fromX, fromY, toX, toY) + MiddleOfBrightness,
        _components[1].Over(fromX, fromY, toX, toY),
        _components[2].Over(fromX, fromY, toX, toY));

    private sealed record Component(int Horizontal, int Vertical, int StrideBlocks, short[] Means, double Step)
    {
        public double Over(int fromX, int fromY, int toX, int toY)
        {
            long sum = 0;
            for (int y = fromY * Vertical; y < toY * Vertical; y++)
            {
                foreach (short mean in Means.AsSpan((y * StrideBlocks) + (fromX * Horizontal), (toX - fromX) * Horizontal))
                {
                    sum += mean;
                }
            }

            return Step * sum / ((double)(toX - fromX) * Horizontal * (toY - fromY) * Vertical);
        }
    }
}
