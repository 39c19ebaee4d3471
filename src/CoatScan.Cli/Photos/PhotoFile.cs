using System.Globalization;
using CoatScan.Cli.Connection;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.Cli.Photos;

/// <summary>Reads one photo when its turn comes.</summary>
internal static class PhotoFile
{
    private const int LongestDisplayName = 255;

    /// <summary>Reads the photo, or says why it cannot be sent.</summary>
    /// <param name="place">Where it is.</param>
    /// <param name="largestBytes">The largest photo that the service takes in one message.</param>
    /// <param name="cancellationToken">Stops reading.</param>
    /// <returns>Exactly one of the two.</returns>
    public static async Task<(PhotoInput? Photo, ServiceError? Error)> ReadAsync(
        PhotoPlace place, long largestBytes, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (place.Error is not null)
        {
            return (null, place.Error);
        }

        try
        {
            await using var file = new FileStream(
                place.Path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0, useAsync: true);
            if (file.CanSeek && file.Length > largestBytes)
            {
                return (null, TooLarge(largestBytes));
            }

            // A pipe has no length, so the bound is kept while reading as well.
            using var bytes = new MemoryStream(file.CanSeek ? (int)file.Length : 0);
            var chunk = new byte[64 * 1024];
            int count;
            while ((count = await file.ReadAsync(chunk, cancellationToken)) > 0)
            {
                bytes.Write(chunk, 0, count);
                if (bytes.Length > largestBytes)
                {
                    return (null, TooLarge(largestBytes));
                }
            }

            var content = UnsafeByteOperations.UnsafeWrap(bytes.GetBuffer().AsMemory(0, (int)bytes.Length));
            return (new() { Content = content, DisplayName = DisplayName(place.Name) }, null);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException
            or NotSupportedException or ArgumentException)
        {
            return (null, Unreadable(failure));
        }
    }

    /// <summary>Says why a file or a folder cannot be read.</summary>
    public static ServiceError Unreadable(Exception failure) => failure switch
    {
        FileNotFoundException or DirectoryNotFoundException =>
            new("NOT_FOUND", "FILE_NOT_FOUND", "There is no such file or folder."),
        UnauthorizedAccessException =>
            new("PERMISSION_DENIED", "FILE_NOT_READABLE", "This account may not read it."),
        _ => new("FAILED_PRECONDITION", "FILE_NOT_READABLE", $"It cannot be read: {failure.Message}"),
    };

    private static string DisplayName(string name)
    {
        if (name.Length <= LongestDisplayName)
        {
            return name;
        }

        // The end tells photos apart; a pair of surrogates must not be cut in two.
        var start = name.Length - LongestDisplayName;
        return name[(char.IsLowSurrogate(name[start]) ? start + 1 : start)..];
    }

    private static ServiceError TooLarge(long largestBytes) => ServiceError.Invalid(
        "PHOTO_TOO_LARGE",
        string.Create(
            CultureInfo.InvariantCulture,
            $"The file is larger than the {largestBytes / 1048576.0:0.#} MiB that the service takes."));
}
