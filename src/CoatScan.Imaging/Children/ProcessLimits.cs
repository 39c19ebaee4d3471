using System.Diagnostics;
using System.Runtime.InteropServices;

namespace CoatScan.Imaging.Children;

/// <summary>Limits that the kernel holds this process to (setrlimit(2)). On Linux; elsewhere there are none.</summary>
internal static class ProcessLimits
{
    private const int Cpu = 0;
    private const int Data = 2;

    /// <summary>Limits the memory that the process can write to. The runtime reserves far more than it writes to, which does not count.</summary>
    /// <param name="megabytes">Most megabytes.</param>
    /// <exception cref="InvalidOperationException">The kernel refuses.</exception>
    public static void LimitMemory(int megabytes) => Limit(Data, (nuint)megabytes * 1024 * 1024);

    /// <summary>Limits the processor time from now on; when it is used up the kernel ends the process.</summary>
    /// <param name="seconds">Most seconds.</param>
    /// <exception cref="InvalidOperationException">The kernel refuses.</exception>
    public static void LimitCpu(int seconds)
    {
        using var process = Process.GetCurrentProcess();

        // Whole seconds, so that the one begun is given too.
        Limit(Cpu, (nuint)Math.Ceiling(process.TotalProcessorTime.TotalSeconds) + (nuint)seconds);
    }

    private static void Limit(int resource, nuint value)
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        // The hard limit stays, so that the soft one can be raised for the next photo.
        if (GetLimit(resource, out var limit) != 0)
        {
            throw new InvalidOperationException($"The limit {resource} of the process cannot be read.");
        }

        limit.Soft = value < limit.Hard ? value : limit.Hard;
        if (SetLimit(resource, limit) != 0)
        {
            throw new InvalidOperationException($"The limit {resource} of the process cannot be set.");
        }
    }

    [DllImport("libc", EntryPoint = "getrlimit", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int GetLimit(int resource, out Limits limits);

    [DllImport("libc", EntryPoint = "setrlimit", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int SetLimit(int resource, in Limits limits);

    [StructLayout(LayoutKind.Sequential)]
    private struct Limits
    {
        public nuint Soft;
        public nuint Hard;
    }
}
