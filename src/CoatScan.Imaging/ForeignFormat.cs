using CoatScan.Findings;

namespace CoatScan.Imaging;

/// <summary>Names what a file is that is neither JPEG nor PNG, from its first bytes.</summary>
internal static class ForeignFormat
{
    /// <summary>The refusal that tells the caller what was sent.</summary>
    public static CoatScanException Refuse(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length >= 4 && bytes[1..4].SequenceEqual("PNG"u8))
        {
            return Refusal.Unreadable("the PNG signature is damaged, as by a transfer in text mode");
        }

        if (bytes.StartsWith("GIF8"u8))
        {
            return Refusal.Format("image/gif", "a GIF");
        }

        if (bytes.Length >= 12 && bytes.StartsWith("RIFF"u8) && bytes[8..12].SequenceEqual("WEBP"u8))
        {
            return Refusal.Format("image/webp", "a WebP image");
        }

        if (bytes.StartsWith("II*\0"u8) || bytes.StartsWith("MM\0*"u8))
        {
            return Refusal.Format("image/tiff", "a TIFF image or a camera's raw file");
        }

        if (bytes.Length >= 12 && bytes[4..8].SequenceEqual("ftyp"u8))
        {
            return RefuseByBrand(bytes[8..12]);
        }

        if (bytes.StartsWith("%PDF-"u8))
        {
            return Refusal.Format("application/pdf", "a PDF");
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0, 0, 0, 12, (byte)'J', (byte)'X', (byte)'L', (byte)' '])
            || bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0x0A]))
        {
            return Refusal.Format("image/jxl", "a JPEG XL image");
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0, 0, 0, 12, (byte)'j', (byte)'P', (byte)' ', (byte)' ']))
        {
            return Refusal.Format("image/jp2", "a JPEG 2000 image");
        }

        if (bytes.StartsWith("PK\x03\x04"u8))
        {
            return Refusal.Format("application/zip", "a ZIP archive");
        }

        if (bytes.Length >= 14 && bytes.StartsWith("BM"u8))
        {
            return Refusal.Format("image/bmp", "a BMP image");
        }

        return LooksLikeText(bytes)
            ? Refusal.Format("text/plain", "text")
            : Refusal.Format("application/octet-stream", "of no recognized image format");
    }

    private static CoatScanException RefuseByBrand(ReadOnlySpan<byte> brand)
    {
        // Brands of ISO/IEC 23008-12 (HEIF) and of the AV1 image format, from memory.
        if (brand.SequenceEqual("avif"u8) || brand.SequenceEqual("avis"u8))
        {
            return Refusal.Format("image/avif", "an AVIF image");
        }

        if (brand.SequenceEqual("heic"u8) || brand.SequenceEqual("heix"u8) || brand.SequenceEqual("heim"u8)
            || brand.SequenceEqual("heis"u8) || brand.SequenceEqual("hevc"u8) || brand.SequenceEqual("mif1"u8)
            || brand.SequenceEqual("msf1"u8))
        {
            return Refusal.Format("image/heic", "a HEIC image; set the phone's camera to JPEG");
        }

        return Refusal.Format("video/mp4", "a video");
    }

    private static bool LooksLikeText(ReadOnlySpan<byte> bytes)
    {
        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            bytes = bytes[3..];
        }

        foreach (byte value in bytes[..Math.Min(bytes.Length, 512)])
        {
            if (value < 0x20 && value is not ((byte)'\t' or (byte)'\n' or (byte)'\r' or 0x0C))
            {
                return false;
            }

            if (value is 0x7F or 0xC0 or 0xC1 or > 0xF4)
            {
                return false;
            }
        }

        return true;
    }
}
