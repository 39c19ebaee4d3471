using System.Runtime.InteropServices;

namespace CoatScan.Service.Hosting;

/// <summary>Memory that the image library and the network take from the C library.</summary>
internal static class NativeHeap
{
    // <malloc.h>: parameters of mallopt(3).
    private const int MmapThreshold = -3;
    private const int ArenaMax = -8;

    private const int LargeBytes = 1 << 20;

    /// <summary>
    /// Has the C library (glibc, mallopt(3)) take blocks of a megabyte and more straight from the system and give them back when they are freed, and make
    /// no more heaps than there are. By itself it comes to keep blocks of up to 32 MB, and a heap for each thread: that costs 90 MB and saves no
    /// time here, where few blocks are taken and most are large.
    /// </summary>
    public static void KeepLittle() => Ask(() =>
    {
        _ = MallOpt(ArenaMax, 1);
        _ = MallOpt(MmapThreshold, LargeBytes);
    });

    /// <summary>Gives pages that hold nothing back to the system, where the C library can (glibc, malloc_trim(3)); elsewhere does nothing.</summary>
    public static void Trim() => Ask(() => _ = MallocTrim(0));

    private static void Ask(Action what)
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        try
        {
            what();
        }
        catch (EntryPointNotFoundException)
        {
            // Another C library; it keeps less by itself.
        }
    }

    [DllImport("libc", EntryPoint = "malloc_trim")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int MallocTrim(nuint pad);

    [DllImport("libc", EntryPoint = "mallopt")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int MallOpt(int parameter, int value);
}
