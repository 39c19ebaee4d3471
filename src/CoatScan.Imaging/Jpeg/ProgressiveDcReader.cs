namespace CoatScan.Imaging.Jpeg;

/// <summary>Blocks of a progressive scan of the mean: ITU-T T.81 G.1.2.1.</summary>
internal sealed class ProgressiveDcReader(ComponentProgress progress, EntropyBits bits, ScanHeader scan, HuffmanTable? dc)
    : BlockReader(progress.Component)
{
    private const int MaxDcBits = 11;

    /// <inheritdoc/>
    public override void Read(int blockX, int blockY)
    {
        if (scan.HighBit != 0)
        {
            bits.Skip(1);
            return;
        }

        int size = bits.Symbol(dc!);
        if (size > MaxDcBits)
        {
            throw Refusal.Unreadable("the compressed data of the JPEG is damaged");
        }

        bits.Skip(size);
    }
}
