using System.Collections.Concurrent;
using CoatScan.Cli.Connection;
using CoatScan.Cli.Photos;
using CoatScan.Client;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.Cli.Batches;

/// <summary>Sends the photos that the service lacks, and keeps in mind those that it refuses.</summary>
internal sealed class BatchUpload(ServiceConnection service)
{
    private const int MostAtOnce = 4;
    private const int LongestDisplayName = 255;

    private readonly PhotoUploader _uploader = new(service.Photos);
    private readonly ConcurrentDictionary<DigestedPhoto, ServiceError> _refused = [];

    /// <summary>Why a photo is not in the service; null if it is.</summary>
    public ServiceError? ErrorOf(DigestedPhoto photo) => photo.Error ?? _refused.GetValueOrDefault(photo);

    /// <summary>Sends what is missing.</summary>
    /// <param name="photos">The photos.</param>
    /// <param name="done">Called once for each photo.</param>
    /// <param name="cancellationToken">Stops sending.</param>
    /// <exception cref="CoatScanCallException">The service does not take any photo now.</exception>
    public Task RunAsync(IEnumerable<DigestedPhoto> photos, Action done, CancellationToken cancellationToken) =>
        Parallel.ForEachAsync(
            photos,
            new ParallelOptions { MaxDegreeOfParallelism = MostAtOnce, CancellationToken = cancellationToken },
            async (photo, token) =>
            {
                if (photo.Error is null && !await IsThereAsync(photo, token))
                {
                    await SendAsync(photo, token);
                }

                lock (_refused)
                {
                    done();
                }
            });

    private async Task<bool> IsThereAsync(DigestedPhoto photo, CancellationToken cancellationToken)
    {
        try
        {
            await service.Photos.GetPhotoAsync(
                new GetPhotoRequest { Name = photo.Name },
                deadline: ServiceConnection.PhotoDeadline(),
                cancellationToken: cancellationToken);
            return true;
        }
        catch (RpcException failure) when (failure.StatusCode == StatusCode.NotFound)
        {
            return false;
        }
    }

    private async Task SendAsync(DigestedPhoto photo, CancellationToken cancellationToken)
    {
        var name = photo.Place.Name;
        try
        {
            await using var file = File.OpenRead(photo.Place.Path);
            var stored = await _uploader.UploadAsync(
                file, name.Length <= LongestDisplayName ? name : Path.GetFileName(name), cancellationToken);
            if (stored.Name != photo.Name)
            {
                _refused[photo] = ServiceError.Invalid("PHOTO_CHANGED", "The file has changed while it was read; start again.");
            }
        }
        catch (CoatScanCallException failure) when (failure.StatusCode == StatusCode.InvalidArgument)
        {
            _refused[photo] = ServiceError.Of((RpcException)failure.InnerException!);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            _refused[photo] = PhotoFile.Unreadable(failure);
        }
    }
}
