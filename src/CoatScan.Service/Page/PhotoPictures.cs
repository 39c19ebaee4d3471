using CoatScan.Reports;
using CoatScan.Storage.Photos;

namespace CoatScan.Service.Page;

/// <summary>Reduced copies of stored photos, without what the camera wrote beside the pixels.</summary>
/// <remarks>The originals are never given out. One at a time: a page with many photos must not take every core.</remarks>
internal sealed class PhotoPictures(PhotoStore photos) : IDisposable
{
    private readonly SemaphoreSlim _one = new(1);

    /// <summary>Sends the picture of a photo.</summary>
    public async Task SendAsync(HttpContext http)
    {
        var sha256 = http.Request.RouteValues["sha256"]?.ToString() ?? "";
        var photo = await photos.GetAsync(PhotoName.Of(sha256), "photo", http.RequestAborted).ConfigureAwait(false);
        var tag = $"\"{sha256}\"";
        http.Response.Headers.ETag = tag;

        // The address names the bytes, so what it leads to never changes; it may be deleted, so a shared cache keeps nothing.
        http.Response.Headers.CacheControl = "private, max-age=86400, immutable";
        if (http.Request.Headers.IfNoneMatch == tag)
        {
            http.Response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        await _one.WaitAsync(http.RequestAborted).ConfigureAwait(false);
        try
        {
            var picture = await Task.Run(() => SheetPhoto.Of(photos.Load(photo), http.RequestAborted), http.RequestAborted).ConfigureAwait(false);
            http.Response.ContentType = "image/jpeg";
            http.Response.ContentLength = picture.Jpeg.Length;
            await http.Response.Body.WriteAsync(picture.Jpeg, http.RequestAborted).ConfigureAwait(false);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <inheritdoc />
    public void Dispose() => _one.Dispose();
}
