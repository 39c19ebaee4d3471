using CoatScan.Cli.Connection;

namespace CoatScan.Cli.Photos;

/// <summary>Finds the photos that the arguments of <c>inspect</c> name.</summary>
internal static class PhotoSearch
{
    // Other formats are listed too: that the service refuses a HEIC is better told than passed over in silence.
    private static readonly HashSet<string> PhotoExtensions = new(StringComparer.OrdinalIgnoreCase)
    {
        ".jpg", ".jpeg", ".jpe", ".jfif", ".png", ".webp", ".heic", ".heif", ".tif", ".tiff", ".bmp", ".gif", ".avif",
    };

    /// <summary>
    /// The photos in order: arguments as given, a folder's photos by ordinal order of their paths, subfolders included.
    /// An argument that leads nowhere stays in the list with its error, so that nothing is lost.
    /// </summary>
    public static IReadOnlyList<PhotoPlace> Find(IEnumerable<string> arguments)
    {
        ArgumentNullException.ThrowIfNull(arguments);
        var places = new List<PhotoPlace>();
        foreach (var argument in arguments)
        {
            if (Directory.Exists(argument))
            {
                AddFolder(argument, places);
            }
            else
            {
                // A file named by the user is sent whatever its name is; the service knows what it can read.
                places.Add(new(argument, argument));
            }
        }

        return places;
    }

    private static void AddFolder(string folder, List<PhotoPlace> places)
    {
        var found = new List<PhotoPlace>();
        Collect(folder, found);
        if (found.Count == 0)
        {
            found.Add(new(folder, folder, ServiceError.Invalid("FOLDER_WITHOUT_PHOTOS", "The folder holds no photo.")));
        }

        found.Sort((a, b) => string.CompareOrdinal(a.Path, b.Path));
        places.AddRange(found);
    }

    private static void Collect(string folder, List<PhotoPlace> found)
    {
        try
        {
            foreach (var entry in new DirectoryInfo(folder).EnumerateFileSystemInfos())
            {
                if (entry.Attributes.HasFlag(FileAttributes.Hidden))
                {
                    continue;
                }

                var path = Path.Combine(folder, entry.Name);
                if (entry is DirectoryInfo)
                {
                    // A linked folder can lead back up and never end.
                    if (entry.LinkTarget is null)
                    {
                        Collect(path, found);
                    }
                }
                else if (PhotoExtensions.Contains(entry.Extension))
                {
                    found.Add(new(path, path));
                }
            }
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            found.Add(new(folder, folder, PhotoFile.Unreadable(failure)));
        }
    }
}
