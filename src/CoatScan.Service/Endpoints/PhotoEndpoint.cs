using CoatScan.Findings;
using CoatScan.Metrics.Quality;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using CoatScan.Service.Photos;
using CoatScan.Storage.Photos;
using CoatScan.Storage;
using Google.Protobuf.WellKnownTypes;
using Grpc.Core;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>PhotoService of the contract.</summary>
internal sealed class PhotoEndpoint(PhotoStore store, PictureIndex pictures, PhotoReceiver receiver)
    : Wire.PhotoService.PhotoServiceBase
{
    private const int MaxDistanceBits = 16;

    /// <inheritdoc />
    [Access(AccessScope.Write)]
    public override async Task<Wire.Photo> UploadPhoto(
        IAsyncStreamReader<Wire.UploadPhotoRequest> requestStream,
        ServerCallContext context)
    {
        var pace = receiver.StartPace();
        var reader = new ChunkReader(requestStream);
        var metadata = await pace.NextAsync(reader.ReadMetadataAsync, 0, context.CancellationToken).ConfigureAwait(false);
        var declared = PhotoRequestMapping.ToDeclaration(metadata);
        return StoredPhotoMapping.ToWire(await receiver
            .ReceiveAsync(declared, reader.ReadChunkAsync, pace, context.CancellationToken)
            .ConfigureAwait(false));
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.Photo> GetPhoto(Wire.GetPhotoRequest request, ServerCallContext context) =>
        StoredPhotoMapping.ToWire(await store
            .GetAsync(request.Name, cancellationToken: context.CancellationToken)
            .ConfigureAwait(false));

    /// <inheritdoc />
    [Access(AccessScope.Admin)]
    public override async Task<Empty> DeletePhoto(Wire.DeletePhotoRequest request, ServerCallContext context)
    {
        await store.DeleteAsync(request.Name, context.CancellationToken).ConfigureAwait(false);
        return new Empty();
    }

    /// <inheritdoc />
    [Access(AccessScope.Read)]
    public override async Task<Wire.FindSimilarPhotosResponse> FindSimilarPhotos(
        Wire.FindSimilarPhotosRequest request,
        ServerCallContext context)
    {
        var distanceBits = PhotoRequestMapping.InRange(
            request.HasMaxDistanceBits ? request.MaxDistanceBits : PictureHash.SameDistanceBits,
            MaxDistanceBits,
            "max_distance_bits");
        var count = PhotoRequestMapping.InRange(request.MaxResults, int.MaxValue, "max_results");
        var photo = await store.GetAsync(request.Name, cancellationToken: context.CancellationToken)
            .ConfigureAwait(false);
        var similar = await pictures
            .FindSimilarAsync(
                photo,
                distanceBits,
                count == 0 ? FindingStore.DefaultPageSize : Math.Min(count, FindingStore.MaximumPageSize),
                context.CancellationToken)
            .ConfigureAwait(false);
        var response = new Wire.FindSimilarPhotosResponse { Comparable = photo.Description.PerceptualHash is not null };
        response.Photos.Add(similar.Select(StoredPhotoMapping.ToWire));
        return response;
    }
}
