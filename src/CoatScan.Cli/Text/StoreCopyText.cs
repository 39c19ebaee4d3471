using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Text;

/// <summary>What was copied, and what could not be.</summary>
internal static class StoreCopyText
{
    /// <summary>Writes it and returns the exit code.</summary>
    /// <param name="session">Where to write.</param>
    /// <param name="words">The language.</param>
    /// <param name="what">A sentence with blanks for the place, the findings, the photos and their megabytes.</param>
    /// <param name="place">Where the copy lies.</param>
    /// <param name="copy">What was copied.</param>
    public static async Task<int> WriteAsync(Session session, ReaderWords words, string what, string place, StoreCopy copy)
    {
        await session.Out.WriteLineAsync(
            words.Fill(what, place, copy.FindingCount, copy.PhotoCount, (copy.PhotoBytes / 1e6).ToString("0.0", words.Format.Marks)));
        foreach (var photo in copy.DamagedPhotos)
        {
            await session.Error.WriteLineAsync(words.Fill("Missing or damaged: {0}", photo));
        }

        return copy.DamagedPhotos.Count == 0 ? ExitCode.Done : ExitCode.SomeFailed;
    }
}
