namespace CoatScan.Imaging.Jpeg;

/// <summary>How much of one component the scans have brought so far.</summary>
internal sealed class ComponentProgress
{
    /// <summary>Coefficients of a block.</summary>
    public const int Coefficients = 64;

    private const int NotSent = -1;

    private readonly int[] _lowBit = new int[Coefficients];

    /// <summary>Lays out the blocks of a component.</summary>
    public ComponentProgress(JpegComponent component, JpegStructure frame, int maxHorizontal, int maxVertical)
    {
        Component = component;
        BlocksX = DivideUp(DivideUp(frame.WidthPx * component.Horizontal, maxHorizontal), 8);
        BlocksY = DivideUp(DivideUp(frame.HeightPx * component.Vertical, maxVertical), 8);
        StrideBlocks = DivideUp(frame.WidthPx, 8 * maxHorizontal) * component.Horizontal;
        int rows = DivideUp(frame.HeightPx, 8 * maxVertical) * component.Vertical;
        Means = new short[StrideBlocks * rows];
        NonZero = frame.IsProgressive ? new ulong[StrideBlocks * rows] : [];
        _lowBit.AsSpan().Fill(NotSent);
    }

    /// <summary>The component of the frame.</summary>
    public JpegComponent Component { get; }

    /// <summary>Blocks across, without the fill of the last column of units.</summary>
    public int BlocksX { get; }

    /// <summary>Blocks down, without the fill of the last row of units.</summary>
    public int BlocksY { get; }

    /// <summary>Blocks across with the fill.</summary>
    public int StrideBlocks { get; }

    /// <summary>The first coefficient of each block, row by row with the fill, in steps of the quantizer: eight times its mean.</summary>
    public short[] Means { get; }

    /// <summary>One bit for each coefficient of a block that is not zero so far; only for progressive frames.</summary>
    public ulong[] NonZero { get; }

    /// <summary>Every coefficient was sent down to its last bit.</summary>
    public bool IsComplete => Array.TrueForAll(_lowBit, bit => bit == 0);

    /// <summary>Notes a scan of a band of coefficients, and refuses one that cannot follow what came before.</summary>
    public void Begin(ScanHeader scan)
    {
        for (int k = scan.First; k <= scan.Last; k++)
        {
            int expected = _lowBit[k] == NotSent ? 0 : _lowBit[k];
            if (scan.HighBit != expected || (_lowBit[k] != NotSent && scan.HighBit == 0))
            {
                throw Refusal.Unreadable("the scans of the JPEG contradict each other");
            }

            _lowBit[k] = scan.LowBit;
        }
    }

    private static int DivideUp(int value, int by) => (value + by - 1) / by;
}
