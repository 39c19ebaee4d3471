namespace CoatScan.Imaging.Jpeg;

/// <summary>Blocks of a progressive scan of the mean: ITU-T T.81 G.1.2.1.</summary>
internal sealed class ProgressiveDcReader(ComponentProgress progress, EntropyBits bits, ScanHeader scan, HuffmanTable? dc)
    : BlockReader(progress.Component)
{
    private const int MaxDcBits = 11;

    private int _mean;

    /// <inheritdoc/>
    public override void Read(int blockX, int blockY)
    {
        ref short mean = ref progress.Means[(blockY * progress.StrideBlocks) + blockX];
        if (scan.HighBit != 0)
        {
            mean |= (short)(bits.Read(1) << scan.LowBit);
            return;
        }

        int size = bits.Symbol(dc!);
        if (size > MaxDcBits)
        {
            throw Refusal.Unreadable("the compressed data of the JPEG is damaged");
        }

        _mean += bits.Signed(size);
        mean = (short)(_mean << scan.LowBit);
    }

    /// <inheritdoc/>
    public override void Restart() => _mean = 0;
}
