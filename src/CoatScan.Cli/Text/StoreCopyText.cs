using System.Globalization;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Text;

/// <summary>What was copied, and what could not be.</summary>
internal static class StoreCopyText
{
    /// <summary>Writes it and returns the exit code.</summary>
    public static async Task<int> WriteAsync(Session session, string what, StoreCopy copy)
    {
        await session.Out.WriteLineAsync(string.Create(
            CultureInfo.InvariantCulture,
            $"{what}: findings {copy.FindingCount}, photos {copy.PhotoCount} ({copy.PhotoBytes / 1e6:0.0} MB)."));
        foreach (var photo in copy.DamagedPhotos)
        {
            await session.Error.WriteLineAsync($"Missing or damaged: {photo}");
        }

        return copy.DamagedPhotos.Count == 0 ? ExitCode.Done : ExitCode.SomeFailed;
    }
}
