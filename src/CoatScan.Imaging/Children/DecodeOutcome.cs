namespace CoatScan.Imaging.Children;

/// <summary>First byte of a child's answer; pixels follow only behind <see cref="Decoded"/>.</summary>
internal enum DecodeOutcome : byte
{
    Decoded = 1,
    Damaged = 2,
    OtherSize = 3,
    Transparent = 4,
}
