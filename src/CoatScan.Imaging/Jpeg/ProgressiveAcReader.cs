using System.Numerics;

namespace CoatScan.Imaging.Jpeg;

/// <summary>Blocks of a progressive scan of the detail, first or refining: ITU-T T.81 G.1.2.2 and G.1.2.3.</summary>
internal sealed class ProgressiveAcReader(ComponentProgress progress, EntropyBits bits, ScanHeader scan, HuffmanTable ac)
    : BlockReader(progress.Component)
{
    private const int MaxAcBits = 10;

    // Blocks still to come that bring no new coefficient.
    private int _emptyBlocks;

    /// <inheritdoc/>
    public override void Read(int blockX, int blockY)
    {
        ref ulong nonZero = ref progress.NonZero[(blockY * progress.StrideBlocks) + blockX];
        if (scan.HighBit == 0)
        {
            ReadFirst(ref nonZero);
        }
        else
        {
            ReadRefining(ref nonZero);
        }
    }

    /// <inheritdoc/>
    public override void Restart() => _emptyBlocks = 0;

    private void ReadFirst(ref ulong nonZero)
    {
        if (_emptyBlocks > 0)
        {
            _emptyBlocks--;
            return;
        }

        for (int k = scan.First; k <= scan.Last; k++)
        {
            int symbol = bits.Symbol(ac);
            int run = symbol >> 4;
            int size = symbol & 15;
            if (size == 0 && run != 15)
            {
                _emptyBlocks = (1 << run) + bits.Read(run) - 1;
                return;
            }

            k += run;
            if (size == 0)
            {
                continue;
            }

            if (size > MaxAcBits || k > scan.Last)
            {
                throw Damaged();
            }

            bits.Skip(size);
            nonZero |= 1UL << k;
        }
    }

    private void ReadRefining(ref ulong nonZero)
    {
        int k = scan.First;
        if (_emptyBlocks == 0)
        {
            for (; k <= scan.Last; k++)
            {
                int symbol = bits.Symbol(ac);
                int run = symbol >> 4;
                int size = symbol & 15;
                if (size == 0 && run != 15)
                {
                    _emptyBlocks = (1 << run) + bits.Read(run);
                    break;
                }

                if (size > 1)
                {
                    throw Damaged();
                }

                bits.Skip(size);
                k = PassZeros(nonZero, k, run);
                if (size == 0)
                {
                    continue;
                }

                if (k > scan.Last)
                {
                    throw Damaged();
                }

                nonZero |= 1UL << k;
            }
        }

        if (_emptyBlocks > 0)
        {
            SkipCorrections(nonZero, k);
            _emptyBlocks--;
        }
    }

    /// <summary>Passes over a run of zeros and the correction bits between them; where the next new coefficient stands.</summary>
    private int PassZeros(ulong nonZero, int k, int run)
    {
        for (; k <= scan.Last; k++)
        {
            if ((nonZero & (1UL << k)) != 0)
            {
                bits.Skip(1);
            }
            else if (--run < 0)
            {
                break;
            }
        }

        return k;
    }

    private void SkipCorrections(ulong nonZero, int from)
    {
        if (from <= scan.Last)
        {
            ulong band = (nonZero >> from) & (ulong.MaxValue >> (63 - (scan.Last - from)));
            bits.Skip(BitOperations.PopCount(band));
        }
    }

    private static Findings.CoatScanException Damaged() => Refusal.Unreadable("the compressed data of the JPEG is damaged");
}
