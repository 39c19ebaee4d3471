namespace CoatScan.Imaging.Jpeg;

/// <summary>Parameters of a scan: which components, which coefficients, which bits.</summary>
/// <param name="Components">Index into the frame's components, and its DC and AC table, for each component of the scan.</param>
/// <param name="First">First coefficient, [0, 63].</param>
/// <param name="Last">Last coefficient, [First, 63].</param>
/// <param name="HighBit">Bit position of the scan before; 0 for the first.</param>
/// <param name="LowBit">Bit position of this scan.</param>
internal sealed record ScanHeader(
    (int Component, int Dc, int Ac)[] Components, int First, int Last, int HighBit, int LowBit)
{
    // T.81 B.2.3: blocks in an interleaved unit.
    private const int MaxBlocksPerUnit = 10;

    /// <summary>Reads and checks a header.</summary>
    public static ScanHeader Read(ReadOnlySpan<byte> body, JpegStructure frame)
    {
        int count = body.IsEmpty ? 0 : body[0];
        if (count is < 1 or > 4 || count > frame.Components.Length || body.Length < (2 * count) + 4)
        {
            throw Damaged();
        }

        var components = new (int Component, int Dc, int Ac)[count];
        int blocks = 0;
        for (int i = 0; i < count; i++)
        {
            byte id = body[1 + (2 * i)];
            int index = Array.FindIndex(frame.Components, component => component.Id == id);
            int tables = body[2 + (2 * i)];
            components[i] = (index, tables >> 4, tables & 15);
            if (index < 0 || tables >> 4 > 3 || (tables & 15) > 3 || Array.FindIndex(components, c => c.Component == index) < i)
            {
                throw Damaged();
            }

            blocks += frame.Components[index].Horizontal * frame.Components[index].Vertical;
        }

        ReadOnlySpan<byte> band = body[(1 + (2 * count))..];
        var header = frame.IsProgressive
            ? new ScanHeader(components, band[0], band[1], band[2] >> 4, band[2] & 15)
            : new ScanHeader(components, 0, 63, 0, 0);
        if ((count > 1 && blocks > MaxBlocksPerUnit) || (frame.IsProgressive && !header.IsPossible()))
        {
            throw Damaged();
        }

        return header;
    }

    private static Findings.CoatScanException Damaged() => Refusal.Unreadable("a scan header of the JPEG is damaged");

    private bool IsPossible() =>
        Last < 64 && First <= Last && LowBit <= 13
        && (First == 0 ? Last == 0 : Components.Length == 1)
        && (HighBit == 0 || HighBit == LowBit + 1);
}
