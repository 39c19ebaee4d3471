using CoatScan.Findings;

namespace CoatScan.Storage.Ledger;

/// <summary>One file for each worker process of this machine, locked as long as the process lives.</summary>
/// <remarks>
/// The kernel takes the lock back when a process ends, however it ends (flock(2)): what is left is a file that anybody can
/// lock. A process that has no file is one that nothing is known of.
/// </remarks>
internal sealed class WorkerFiles(string folder)
{
    private const int MostTries = 3;

    private string _own = "";

    /// <summary>Shows that a process lives, until disposed or until it ends.</summary>
    /// <exception cref="CoatScanException">STORAGE_UNAVAILABLE: the folder does not take a file or no lock.</exception>
    public IDisposable SignOn(string worker)
    {
        var path = Path.Combine(folder, worker);
        for (var attempt = 1; ; attempt++)
        {
            FileStream? file = null;
            try
            {
                Directory.CreateDirectory(folder);
                file = new FileStream(
                    path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
                if (IsLocked(path))
                {
                    _own = worker;
                    return file;
                }

                // Locks do not work here: others would take this process for one that has ended.
                file.Dispose();
                throw Unavailable(null);
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException)
            {
                // Somebody may have looked at it between its making and its lock.
                file?.Dispose();
                if (attempt == MostTries)
                {
                    throw Unavailable(error);
                }
            }
        }
    }

    /// <summary>Processes that have ended and were not forgotten.</summary>
    public IReadOnlyList<string> ListEnded()
    {
        try
        {
            return
            [
                .. Directory.EnumerateFiles(folder)
                    .Where(path => Path.GetFileName(path) != _own && !IsLocked(path))
                    .Select(path => Path.GetFileName(path)),
            ];
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // No folder, no process that showed itself. Leases decide.
            return [];
        }
    }

    /// <summary>Forgets a process that has ended.</summary>
    public void Forget(string worker)
    {
        try
        {
            File.Delete(Path.Combine(folder, worker));
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // It is looked at again, and nothing is found that it holds.
        }
    }

    // Also when somebody else looks at this moment, when it is gone, or not ours to open: all of them mean "do not touch".
    private static bool IsLocked(string path)
    {
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
            return false;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return true;
        }
    }

    private static CoatScanException Unavailable(Exception? inner) => new(
        ErrorReason.StorageUnavailable,
        "The folder of the database keeps no locks; what a killed process held comes back when its lease runs out.",
        inner: inner);
}
