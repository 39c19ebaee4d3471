using CoatScan.Findings;
using CoatScan.Reports;

namespace CoatScan.Cli.Sheets;

/// <summary>Pictures for a sheet from the photos that were sent.</summary>
internal static class PhotoPictures
{
    /// <summary>The pictures; one that cannot be had any more is left out, and the sheet shows none for that photo.</summary>
    /// <param name="paths">Paths of the photos of one finding.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    public static async Task<IReadOnlyList<SheetPhoto>> OfAsync(IReadOnlyList<string> paths, CancellationToken cancellationToken)
    {
        var pictures = new List<SheetPhoto>();
        foreach (var path in paths)
        {
            try
            {
                // A pipe can be read only once, and opening it again would wait forever; it has no length.
                if (new FileInfo(path) is { Exists: true, Length: > 0 })
                {
                    pictures.Add(SheetPhoto.Of(await File.ReadAllBytesAsync(path, cancellationToken), cancellationToken));
                }
            }
            catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or CoatScanException)
            {
                // It was read and judged before; that it is gone since takes nothing from the finding.
            }
        }

        return pictures;
    }
}
