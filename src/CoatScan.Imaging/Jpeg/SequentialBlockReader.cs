namespace CoatScan.Imaging.Jpeg;

/// <summary>Blocks of sequential scans: ITU-T T.81 F.2.2.</summary>
internal sealed class SequentialBlockReader(ComponentProgress progress, EntropyBits bits, HuffmanTable dc, HuffmanTable ac)
    : BlockReader(progress.Component)
{
    // T.81 tables F.1 and F.2, for 8 bits a sample.
    private const int MaxDcBits = 11;
    private const int MaxAcBits = 10;

    private int _mean;

    /// <inheritdoc/>
    public override void Read(int blockX, int blockY)
    {
        int size = bits.Symbol(dc);
        if (size > MaxDcBits)
        {
            throw Damaged();
        }

        _mean += bits.Signed(size);
        progress.Means[(blockY * progress.StrideBlocks) + blockX] = (short)_mean;
        for (int k = 1; k < ComponentProgress.Coefficients; k++)
        {
            int symbol = bits.SymbolWithBits(ac);
            int run = symbol >> 4;
            size = symbol & 15;
            if (size == 0)
            {
                if (run != 15)
                {
                    return;
                }

                k += 15;
                continue;
            }

            k += run;
            if (size > MaxAcBits || k >= ComponentProgress.Coefficients)
            {
                throw Damaged();
            }
        }
    }

    /// <inheritdoc/>
    public override void Restart() => _mean = 0;

    private static Findings.CoatScanException Damaged() => Refusal.Unreadable("the compressed data of the JPEG is damaged");
}
