using System.ComponentModel;
using System.Runtime.InteropServices;

namespace CoatScan.Storage.Photos;

/// <summary>Makes a new or renamed entry of a folder survive a loss of power.</summary>
/// <remarks>
/// Syncing a file does not sync its name: that stands in the folder (fsync(2), NOTES). .NET opens no folder, so the three
/// calls are made here. Windows keeps names in its journal and has no such call.
/// </remarks>
internal static class DiskSync
{
    private const int ReadOnly = 0;

    /// <exception cref="IOException">The folder cannot be opened or synced.</exception>
    public static void SyncFolder(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        var descriptor = Open(path, ReadOnly);
        if (descriptor < 0)
        {
            throw Failed();
        }

        try
        {
            if (Sync(descriptor) != 0)
            {
                throw Failed();
            }
        }
        finally
        {
            _ = Close(descriptor);
        }
    }

    private static IOException Failed()
    {
        var error = new Win32Exception(Marshal.GetLastPInvokeError());
        return new IOException($"The photo folder cannot be synced: {error.Message}", error);
    }

    [DllImport("libc", EntryPoint = "open", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Sync(int descriptor);

    [DllImport("libc", EntryPoint = "close", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int descriptor);
}
