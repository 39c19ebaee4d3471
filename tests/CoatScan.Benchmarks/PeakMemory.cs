using System.Globalization;
using CoatScan.Imaging;
using CoatScan.Metrics;

namespace CoatScan.Benchmarks;

/// <summary>How much memory one photo of 12 megapixels takes above an idle process, from bytes to measurements.</summary>
/// <remarks>
/// Idle is after a small photo, so that all code is compiled and loaded. The peak is the kernel's own, of the resident set of the whole
/// process (VmHWM of /proc/self/status), so that the image library's memory and the garbage collector's are in it. Linux only.
/// </remarks>
internal static class PeakMemory
{
    /// <summary>Prints idle, peak and their difference, for the first photo and for a second.</summary>
    public static void Print()
    {
        var options = new ImagingOptions();
        var normalizer = new PhotoNormalizer(new GuardedPhotoDecoder(options), options);
        var large = LargePhoto.Jpeg(4000, 3000);
        Measure(normalizer, LargePhoto.Jpeg(800, 600));
        GC.Collect(2, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        var idle = ResidentMb("VmRSS");
        ResetPeak();
        foreach (var name in new[] { "first", "second" })
        {
            Measure(normalizer, large);
            var peak = ResidentMb("VmHWM");
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"{name} photo: idle {idle:0} MB, peak {peak:0} MB, {peak - idle:0} MB above idle"));
        }
    }

    private static void Measure(PhotoNormalizer normalizer, byte[] jpeg)
    {
        using var photo = normalizer.Normalize(jpeg, 0.2, CancellationToken.None);
        _ = PanelMetrics.Measure(photo.Planes, photo.Capture, CancellationToken.None);
    }

    // 5 makes the kernel forget the peak so far: proc_pid_clear_refs(5).
    private static void ResetPeak() => File.WriteAllText("/proc/self/clear_refs", "5");

    private static double ResidentMb(string name) => double.Parse(
        File.ReadLines("/proc/self/status").First(line => line.StartsWith(name, StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2],
        CultureInfo.InvariantCulture) / 1024.0;
}
