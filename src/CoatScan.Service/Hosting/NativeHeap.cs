using System.Runtime.InteropServices;

namespace CoatScan.Service.Hosting;

/// <summary>Memory that the image library and the network take from the C library.</summary>
internal static class NativeHeap
{
    /// <summary>Gives pages that hold nothing back to the system, where the C library can (glibc, malloc_trim(3)); elsewhere does nothing.</summary>
    public static void Trim()
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        try
        {
            _ = MallocTrim(0);
        }
        catch (EntryPointNotFoundException)
        {
            // Another C library; it keeps less by itself.
        }
    }

    [DllImport("libc", EntryPoint = "malloc_trim")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int MallocTrim(nuint pad);
}
