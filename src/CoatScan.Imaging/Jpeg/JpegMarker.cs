namespace CoatScan.Imaging.Jpeg;

/// <summary>Second bytes of the markers of ITU-T T.81 table B.1, from memory.</summary>
internal static class JpegMarker
{
    public const byte BaselineFrame = 0xC0;
    public const byte ExtendedFrame = 0xC1;
    public const byte ProgressiveFrame = 0xC2;
    public const byte LosslessFrame = 0xC3;
    public const byte HuffmanTables = 0xC4;
    public const byte ArithmeticConditioning = 0xCC;
    public const byte FirstRestart = 0xD0;
    public const byte LastRestart = 0xD7;
    public const byte StartOfImage = 0xD8;
    public const byte EndOfImage = 0xD9;
    public const byte StartOfScan = 0xDA;
    public const byte QuantizationTables = 0xDB;
    public const byte RestartInterval = 0xDD;
    public const byte Hierarchical = 0xDE;
    public const byte Expand = 0xDF;
    public const byte App1 = 0xE1;
    public const byte App2 = 0xE2;
    public const byte App14 = 0xEE;
    public const byte Temporary = 0x01;

    public const byte JpegExtension = 0xC8;
    public const byte LastFrame = 0xCF;

    public static bool IsFrame(byte marker) => marker is >= BaselineFrame and <= LastFrame
        and not (HuffmanTables or JpegExtension or ArithmeticConditioning);

    public static bool IsRestart(byte marker) => marker is >= FirstRestart and <= LastRestart;
}
