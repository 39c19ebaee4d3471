using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace CoatScan.Imaging;

/// <summary>Reads orientation, capture time and color space from EXIF data, and nothing else.</summary>
/// <remarks>
/// Place, owner, serial numbers and maker notes are personal data: their tags are passed over unread. Malformed data is the same
/// as absent data, because EXIF does not decide whether a photo can be judged. Tag numbers: CIPA DC-008 (EXIF 2.32), from memory.
/// </remarks>
internal static class ExifReader
{
    private const int OrientationTag = 0x0112;
    private const int ExifDirectoryTag = 0x8769;
    private const int DateTimeOriginalTag = 0x9003;
    private const int OffsetTimeOriginalTag = 0x9011;
    private const int ColorSpaceTag = 0xA001;
    private const int InteroperabilityDirectoryTag = 0xA005;
    private const int InteroperabilityIndexTag = 0x0001;
    private const int AsciiType = 2;
    private const int ShortType = 3;
    private const int LongType = 4;
    private const int EntryBytes = 12;

    /// <summary>Reads a TIFF stream as it stands in a JPEG's APP1 segment behind "Exif" or in a PNG's eXIf chunk.</summary>
    public static ExifFacts Read(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < 8)
        {
            return ExifFacts.None;
        }

        bool bigEndian = tiff.StartsWith("MM\0*"u8);
        if (!bigEndian && !tiff.StartsWith("II*\0"u8))
        {
            return ExifFacts.None;
        }

        uint main = ReadUInt32(tiff[4..], bigEndian);
        int orientation = ReadShort(tiff, main, OrientationTag, bigEndian) ?? 1;
        uint? exif = ReadOffset(tiff, main, ExifDirectoryTag, bigEndian);
        if (exif is not { } directory)
        {
            return ExifFacts.None with { Orientation = Normalize(orientation) };
        }

        string? time = FormatTime(
            ReadAscii(tiff, directory, DateTimeOriginalTag, bigEndian),
            ReadAscii(tiff, directory, OffsetTimeOriginalTag, bigEndian));
        int? colorSpace = ReadShort(tiff, directory, ColorSpaceTag, bigEndian);
        uint? interoperability = ReadOffset(tiff, directory, InteroperabilityDirectoryTag, bigEndian);

        // DCF 2.0 marks its optional color space, Adobe RGB (1998), by "uncalibrated" plus this index; some software writes 2.
        bool isAdobeRgb = colorSpace == 2
            || (colorSpace == 0xFFFF && interoperability is { } index
                && ReadAscii(tiff, index, InteroperabilityIndexTag, bigEndian) == "R03");
        return new ExifFacts(Normalize(orientation), time, isAdobeRgb);
    }

    private static int Normalize(int orientation) => orientation is >= 1 and <= 8 ? orientation : 1;

    private static string? FormatTime(string? time, string? offset)
    {
        if (!DateTime.TryParseExact(
            time, "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime local))
        {
            return null;
        }

        string text = local.ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);
        return offset is not null && IsOffset(offset) ? text + offset : text;
    }

    private static bool IsOffset(string offset) =>
        offset.Length == 6
        && offset[0] is '+' or '-'
        && TimeSpan.TryParseExact(offset[1..], @"hh\:mm", CultureInfo.InvariantCulture, out TimeSpan span)
        && span <= TimeSpan.FromHours(14);

    private static int? ReadShort(ReadOnlySpan<byte> tiff, uint directory, int tag, bool bigEndian) =>
        TryFind(tiff, directory, tag, bigEndian, out ReadOnlySpan<byte> entry)
        && ReadUInt16(entry[2..], bigEndian) == ShortType && ReadUInt32(entry[4..], bigEndian) == 1
            ? ReadUInt16(entry[8..], bigEndian)
            : null;

    private static uint? ReadOffset(ReadOnlySpan<byte> tiff, uint directory, int tag, bool bigEndian) =>
        TryFind(tiff, directory, tag, bigEndian, out ReadOnlySpan<byte> entry)
        && ReadUInt16(entry[2..], bigEndian) == LongType && ReadUInt32(entry[4..], bigEndian) == 1
            ? ReadUInt32(entry[8..], bigEndian)
            : null;

    private static string? ReadAscii(ReadOnlySpan<byte> tiff, uint directory, int tag, bool bigEndian)
    {
        if (!TryFind(tiff, directory, tag, bigEndian, out ReadOnlySpan<byte> entry)
            || ReadUInt16(entry[2..], bigEndian) != AsciiType)
        {
            return null;
        }

        // The longest text of interest is a time of 20 bytes.
        uint count = ReadUInt32(entry[4..], bigEndian);
        if (count is 0 or > 64)
        {
            return null;
        }

        ReadOnlySpan<byte> text = entry.Slice(8, 4);
        if (count > 4)
        {
            uint offset = ReadUInt32(entry[8..], bigEndian);
            if (offset > tiff.Length || count > tiff.Length - offset)
            {
                return null;
            }

            text = tiff[(int)offset..];
        }

        text = text[..(int)count];
        int end = text.IndexOf((byte)0);
        return Encoding.ASCII.GetString(end < 0 ? text : text[..end]).Trim();
    }

    private static bool TryFind(ReadOnlySpan<byte> tiff, uint directory, int tag, bool bigEndian, out ReadOnlySpan<byte> entry)
    {
        entry = default;
        if (directory > tiff.Length - 2)
        {
            return false;
        }

        ReadOnlySpan<byte> entries = tiff[((int)directory + 2)..];
        int count = ReadUInt16(tiff[(int)directory..], bigEndian);
        for (int i = 0; i < count && entries.Length >= EntryBytes; i++)
        {
            if (ReadUInt16(entries, bigEndian) == tag)
            {
                entry = entries[..EntryBytes];
                return true;
            }

            entries = entries[EntryBytes..];
        }

        return false;
    }

    private static ushort ReadUInt16(ReadOnlySpan<byte> at, bool bigEndian) =>
        bigEndian ? BinaryPrimitives.ReadUInt16BigEndian(at) : BinaryPrimitives.ReadUInt16LittleEndian(at);

    private static uint ReadUInt32(ReadOnlySpan<byte> at, bool bigEndian) =>
        bigEndian ? BinaryPrimitives.ReadUInt32BigEndian(at) : BinaryPrimitives.ReadUInt32LittleEndian(at);
}
