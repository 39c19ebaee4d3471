using CoatScan.Service.Access;
using CoatScan.Service.Endpoints;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;

namespace CoatScan.Service.Photos;

/// <summary>
/// Uploads for those who cannot stream gRPC, such as browsers: the body is the bytes of the photo, whatever its content
/// type says. Answers and errors are those of the JSON endpoint.
/// </summary>
internal sealed class PhotoUploadRoute(
    PhotoReceiver receiver, ErrorInterceptor errors, StatusWriter statuses)
{
    /// <summary>Path of the route.</summary>
    public const string Path = "/v1/photos:upload";

    /// <summary>Header with the digest of the body; headers know no case.</summary>
    public const string DigestHeader = "x-content-sha256";

    /// <summary>Query parameter with the name for people.</summary>
    public const string DisplayNameParameter = "displayName";

    private const string BodyField = "body";

    /// <summary>Serves one upload.</summary>
    public async Task InvokeAsync(HttpContext context)
    {
        V1.Photo photo;
        try
        {
            errors.RefuseWhenDraining();
            photo = StoredPhotoMapping.ToWire(await ReceiveAsync(context).ConfigureAwait(false));
        }
        catch (Exception e)
        {
            await statuses.FailAsync(context, e).ConfigureAwait(false);
            return;
        }

        await StatusWriter.WriteAsync(context, photo).ConfigureAwait(false);
    }

    private Task<Storage.Photos.StoredPhoto> ReceiveAsync(HttpContext context)
    {
        var request = context.Request;
        var pace = receiver.StartPace();

        // Size and pace are counted by us, with an answer that says so; Kestrel's own limits would close the connection.
        context.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = null;
        if (context.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } rate)
        {
            rate.MinDataRate = null;
        }

        var declared = new UploadDeclaration(
            request.Headers[DigestHeader].ToString(), request.ContentLength, request.Query[DisplayNameParameter].ToString())
        {
            Sha256Field = DigestHeader,
            SizeField = BodyField,
            DisplayNameField = DisplayNameParameter,
            BytesField = BodyField,
        };
        var buffer = new byte[PhotoOptions.MaxChunkBytes];
        return receiver.ReceiveAsync(declared, NextAsync, pace, context.RequestAborted);

        async ValueTask<ReadOnlyMemory<byte>?> NextAsync(CancellationToken token)
        {
            var count = await request.Body.ReadAsync(buffer, token).ConfigureAwait(false);

            // Spelled out: beside a Memory, a bare null would turn into an empty one.
            return count == 0 ? default(ReadOnlyMemory<byte>?) : buffer.AsMemory(0, count);
        }
    }
}
