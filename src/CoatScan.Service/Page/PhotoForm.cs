using CoatScan.Findings;
using CoatScan.Service.Options;
using CoatScan.Service.Photos;
using CoatScan.Storage.Photos;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Page;

/// <summary>A form with photos, read as it comes in: each photo goes to the store at once and is held nowhere else.</summary>
internal sealed class PhotoForm
{
    private const int MostFieldCharacters = 4096;
    private const int MostFields = 100;

    private readonly List<(string Name, string Value)> _fields = [];

    /// <summary>Photos that were kept, in the order sent, with the names that the browser gave them.</summary>
    public List<(string FileName, StoredPhoto Photo)> Photos { get; } = [];

    /// <summary>Files that were refused, and why.</summary>
    public List<(string FileName, CoatScanException Refusal)> Refused { get; } = [];

    /// <summary>The last value of a field; empty without one.</summary>
    public string this[string name] => _fields.LastOrDefault(one => one.Name == name).Value?.Trim() ?? "";

    /// <summary>All values of a field.</summary>
    public IEnumerable<string> All(string name) => _fields.Where(one => one.Name == name).Select(one => one.Value);

    /// <summary>Reads a form of either kind.</summary>
    /// <exception cref="CoatScanException">The form is malformed or too long.</exception>
    public static async Task<PhotoForm> ReadAsync(HttpContext http, PhotoReceiver receiver)
    {
        var form = new PhotoForm();
        if (!MediaTypeHeaderValue.TryParse(http.Request.ContentType, out var type)
            || !type.MediaType.Equals("multipart/form-data", StringComparison.OrdinalIgnoreCase))
        {
            var plain = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
            form._fields.AddRange(plain.SelectMany(field => field.Value.Select(value => (field.Key, value ?? ""))));
            return form;
        }

        // Each photo has a limit and a pace of its own; the whole has none.
        http.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = null;
        if (http.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } rate)
        {
            rate.MinDataRate = null;
        }

        var boundary = HeaderUtilities.RemoveQuotes(type.Boundary).Value;
        if (string.IsNullOrEmpty(boundary))
        {
            throw Malformed("it has no boundary");
        }

        try
        {
            await form.ReadPartsAsync(new MultipartReader(boundary, http.Request.Body), receiver, http.RequestAborted).ConfigureAwait(false);
        }
        catch (Exception e) when (e is InvalidDataException or IOException)
        {
            throw Malformed(e.Message);
        }

        return form;
    }

    private async Task ReadPartsAsync(MultipartReader reader, PhotoReceiver receiver, CancellationToken cancellationToken)
    {
        while (await reader.ReadNextSectionAsync(cancellationToken).ConfigureAwait(false) is { } part)
        {
            if (part.GetContentDispositionHeader() is not { } disposition)
            {
                continue;
            }

            var name = HeaderUtilities.RemoveQuotes(disposition.Name).Value ?? "";
            if (disposition.IsFileDisposition())
            {
                var file = disposition.FileNameStar.HasValue ? disposition.FileNameStar : disposition.FileName;
                await KeepAsync(part, HeaderUtilities.RemoveQuotes(file).Value ?? "", receiver, cancellationToken).ConfigureAwait(false);
                continue;
            }

            using var text = new StreamReader(part.Body);
            var buffer = new char[MostFieldCharacters + 1];
            var count = await text.ReadBlockAsync(buffer, cancellationToken).ConfigureAwait(false);
            if (count > MostFieldCharacters || _fields.Count == MostFields)
            {
                throw Malformed($"it may have {MostFields} fields of {MostFieldCharacters} characters");
            }

            _fields.Add((name, new string(buffer, 0, count)));
        }
    }

    // A browser sends an empty, nameless file for an input that was left alone.
    private async Task KeepAsync(MultipartSection part, string fileName, PhotoReceiver receiver, CancellationToken cancellationToken)
    {
        if (fileName.Length == 0)
        {
            return;
        }

        var name = fileName[(fileName.LastIndexOfAny(['/', '\\']) + 1)..];
        var declared = new UploadDeclaration("", null, name)
        {
            Sha256Field = name,
            SizeField = name,
            DisplayNameField = name,
            BytesField = name,
        };
        var buffer = new byte[PhotoOptions.MaxChunkBytes];
        try
        {
            var photo = await receiver.ReceiveAsync(declared, NextAsync, receiver.StartPace(), cancellationToken).ConfigureAwait(false);
            Photos.Add((fileName, photo));
        }
        catch (CoatScanException refusal) when (refusal.Reason is not (ErrorReason.ServerBusy or ErrorReason.StorageUnavailable))
        {
            Refused.Add((fileName, refusal));
            await part.Body.DrainAsync(cancellationToken).ConfigureAwait(false);
        }

        async ValueTask<ReadOnlyMemory<byte>?> NextAsync(CancellationToken token)
        {
            var count = await part.Body.ReadAsync(buffer, token).ConfigureAwait(false);
            return count == 0 ? default(ReadOnlyMemory<byte>?) : buffer.AsMemory(0, count);
        }
    }

    private static CoatScanException Malformed(string why) => new(
        ErrorReason.FieldInvalid, $"The form cannot be read: {why.TrimEnd('.')}.", "form");
}
