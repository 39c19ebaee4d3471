using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

/// <summary>Thousands of damaged files with a fixed seed: every one is a photo or a declared refusal, in bounded time.</summary>
public sealed class DecoderFuzzTests
{
    private const int Seed = 20_260_504;

    private static readonly ErrorReason[] Declared =
    [
        ErrorReason.PhotoUnreadable, ErrorReason.PhotoTruncated, ErrorReason.PhotoFormatNotAllowed, ErrorReason.PhotoTooLarge,
        ErrorReason.PhotoColorModelNotAllowed, ErrorReason.PhotoColorProfileNotAllowed, ErrorReason.PhotoMultiFrame,
    ];

    // Damaged sizes would otherwise decode large empty pictures and spend the test's time on them.
    private static readonly ImagingOptions Options = new() { MaxMegapixels = 0.05, WorkingMegapixels = 0.01 };

    [Fact(Timeout = 60_000)]
    public async Task Decode_mutated_jpeg_is_a_photo_or_a_declared_refusal()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve);
        byte[][] seeds =
        [
            JpegBytes.WithExif(JpegBytes.WithProfile(TestPhotos.PatternJpeg(), profile), ExifBytes.Orientation(6)),
            TestPhotos.ProgressiveJpeg,
            TestPhotos.YcckJpeg,
            JpegBytes.GrayBlocks(6, 5, block => 20 + (block * 6), 4),
        ];

        var outcomes = await Task.Run(() => Fuzz(seeds, 2500, _ => { }), TestContext.Current.CancellationToken);

        // The fuzz reaches the inside: some mutants are photos, and several reasons come up.
        Assert.InRange(outcomes.Photos, 50, 2450);
        Assert.InRange(outcomes.Reasons.Count, 4, Declared.Length);
    }

    [Fact(Timeout = 60_000)]
    public async Task Decode_mutated_png_with_right_checksums_is_a_photo_or_a_declared_refusal()
    {
        byte[] profile = IccBytes.Matrix(IccBytes.DisplayP3Colorants, IccBytes.SrgbCurve);
        byte[] tagged = PngBytes.Flat(
            20, 20, (10, 20, 30), PngBytes.Chunk("iCCP"u8, [(byte)'p', 0, 0, .. PngBytes.Deflate(profile)]));
        byte[] palette =
        [
            .. PngBytes.Signature, .. PngBytes.Header(20, 20, 2, 3), .. PngBytes.Chunk("PLTE"u8, [10, 20, 30, 200, 100, 50]),
            .. PngBytes.Data(PngBytes.Rows(20, [0x11, 0, 0x11, 0, 0x11])), .. PngBytes.End,
        ];
        byte[] stored = [.. PngBytes.Signature, .. PngBytes.Header(10, 10, 8, 6), .. PngBytes.Data(PngBytes.Rows(10, new byte[40])), .. PngBytes.End];

        var outcomes = await Task.Run(
            () => Fuzz([TestPhotos.PatternPng(20, 16), tagged, palette, stored, Png.PngPhotosTests.Interlaced(9, 7)], 2500, PngBytes.RepairChecksums),
            TestContext.Current.CancellationToken);

        Assert.InRange(outcomes.Photos, 50, 2450);
        Assert.InRange(outcomes.Reasons.Count, 4, Declared.Length);
    }

    private static (int Photos, HashSet<ErrorReason> Reasons) Fuzz(byte[][] seeds, int count, Action<byte[]> repair)
    {
        var random = new Random(Seed);
        var normalizer = new PhotoNormalizer(new GuardedPhotoDecoder(Options), Options);
        int photos = 0;
        var reasons = new HashSet<ErrorReason>();
        for (int i = 0; i < count; i++)
        {
            byte[] mutant = Mutate(seeds[i % seeds.Length], random);
            repair(mutant);
            try
            {
                NormalizedPhoto photo = normalizer.Normalize(mutant, null, TestContext.Current.CancellationToken);
                Assert.DoesNotContain(float.NaN, photo.Planes.Lightness.Values);
                photos++;
            }
            catch (CoatScanException e)
            {
                Assert.Contains(e.Reason, Declared);
                reasons.Add(e.Reason);
            }
        }

        return (photos, reasons);
    }

    private static byte[] Mutate(byte[] seed, Random random)
    {
        byte[] bytes = [.. seed];
        for (int change = random.Next(1, 5); change > 0; change--)
        {
            // Headers are a small part of the file and the most rewarding one.
            int limit = random.Next(2) == 0 ? Math.Min(bytes.Length, 200) : bytes.Length;
            int at = random.Next(limit);
            switch (random.Next(6))
            {
                case 0:
                    bytes[at] = (byte)random.Next(256);
                    break;
                case 1:
                    bytes[at] ^= (byte)(1 << random.Next(8));
                    break;
                case 2:
                    bytes[at] = random.Next(2) == 0 ? (byte)0 : (byte)255;
                    break;
                case 3:
                    bytes = bytes[..Math.Max(at, 4)];
                    break;
                case 4:
                    int from = random.Next(bytes.Length);
                    int length = Math.Min(random.Next(1, 40), bytes.Length - Math.Max(at, from));
                    bytes.AsSpan(from, length).ToArray().CopyTo(bytes.AsSpan(at));
                    break;
                default:
                    bytes = [.. bytes[..at], (byte)random.Next(256), .. bytes[at..]];
                    break;
            }
        }

        return bytes;
    }
}
