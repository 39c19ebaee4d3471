using System.Globalization;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using CoatScan.Storage.Photos;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Photos;

/// <summary>Receives one photo, from whatever transport: counts, checks, looks at it, keeps it.</summary>
internal sealed class PhotoReceiver(
    PhotoStore store,
    PhotoIdentifier identifier,
    TenantQuotas quotas,
    TimeProvider clock,
    IOptions<AnalysisOptions> analysis,
    IOptions<PhotoOptions> options)
    : IDisposable
{
    // Apart from the workers of analyses: many uploads at once must not fill the queue of those who wait for a finding.
    private readonly SemaphoreSlim _lookers = new(Math.Max(1, analysis.Value.EffectiveWorkers / 2));
    private int _running;

    /// <summary>The clock of a new upload; start it when the call comes in.</summary>
    public UploadPace StartPace() => new(options.Value, clock);

    /// <summary>Receives one photo.</summary>
    /// <param name="declared">What the sender says about it.</param>
    /// <param name="next">The next bytes, not to be kept; null at their end.</param>
    /// <param name="pace">Clock of the upload.</param>
    /// <param name="cancellationToken">Ends the upload; nothing of it stays.</param>
    /// <exception cref="CoatScanException">What was said or what came is refused.</exception>
    public async Task<StoredPhoto> ReceiveAsync(
        UploadDeclaration declared,
        Func<CancellationToken, ValueTask<ReadOnlyMemory<byte>?>> next,
        UploadPace pace,
        CancellationToken cancellationToken)
    {
        Check(declared);
        if (Interlocked.Increment(ref _running) > options.Value.MaxUploads)
        {
            Interlocked.Decrement(ref _running);
            throw Busy();
        }

        try
        {
            return declared.Sha256.Length > 0
                && await store.RenewAsync(declared.Sha256, cancellationToken).ConfigureAwait(false) is { } known
                ? known
                : await ReceiveNewAsync(declared, next, pace, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            Interlocked.Decrement(ref _running);
        }
    }

    /// <inheritdoc />
    public void Dispose() => _lookers.Dispose();

    private async Task<StoredPhoto> ReceiveNewAsync(
        UploadDeclaration declared,
        Func<CancellationToken, ValueTask<ReadOnlyMemory<byte>?>> next,
        UploadPace pace,
        CancellationToken cancellationToken)
    {
        await using var draft = store.Begin();
        var limit = declared.SizeBytes ?? options.Value.MaxUploadBytes;
        while (await pace.NextAsync(next, draft.SizeBytes, cancellationToken).ConfigureAwait(false) is { } bytes)
        {
            if (draft.SizeBytes + bytes.Length > limit)
            {
                throw declared.SizeBytes is null
                    ? TooLarge(declared.BytesField, draft.SizeBytes + bytes.Length)
                    : SizeMismatch(declared, $"more than {draft.SizeBytes}");
            }

            await draft.WriteAsync(bytes, cancellationToken).ConfigureAwait(false);
        }

        CheckReceived(declared, draft);
        var identity = await IdentifyAsync(draft, declared, cancellationToken).ConfigureAwait(false);
        var description = new PhotoDescription(identity.MediaType, identity.WidthPx, identity.HeightPx)
        {
            DisplayName = declared.DisplayName,
            CaptureTime = identity.CaptureTime,
            PerceptualHash = identity.PictureHash,
        };
        return await store.KeepAsync(draft, description, quotas.Photos, cancellationToken).ConfigureAwait(false);
    }

    // The bytes are read when it is their turn, so that no more photos are in memory than are looked at.
    private async Task<PhotoIdentity> IdentifyAsync(
        PhotoDraft draft, UploadDeclaration declared, CancellationToken cancellationToken)
    {
        await _lookers.WaitAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            return await Task.Run(() => Identify(draft, declared, cancellationToken), cancellationToken)
                .ConfigureAwait(false);
        }
        finally
        {
            _lookers.Release();
        }
    }

    private PhotoIdentity Identify(PhotoDraft draft, UploadDeclaration declared, CancellationToken cancellationToken)
    {
        try
        {
            return identifier.Identify(draft.Read(), cancellationToken);
        }
        catch (CoatScanException refusal)
        {
            throw new CoatScanException(
                refusal.Reason, refusal.Message, declared.BytesField, refusal.Metadata, refusal.InnerException);
        }
    }

    private void Check(UploadDeclaration declared)
    {
        RequestMapping.CheckDisplayName(declared.DisplayName, declared.DisplayNameField);
        if (declared.Sha256.Length > 0 && !PhotoName.IsDigest(declared.Sha256))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{declared.Sha256Field} must be a SHA-256, 64 lower-case hex digits.",
                declared.Sha256Field);
        }

        if (declared.SizeBytes is { } size && (size < 1 || size > options.Value.MaxUploadBytes))
        {
            throw size < 1
                ? new CoatScanException(
                    ErrorReason.ValueOutOfRange,
                    $"{declared.SizeField} is {size}; it must be 1 to {options.Value.MaxUploadBytes}.",
                    declared.SizeField,
                    new Dictionary<string, string> { ["value"] = Text(size), ["limit"] = Text(options.Value.MaxUploadBytes) })
                : TooLarge(declared.SizeField, size);
        }
    }

    private static void CheckReceived(UploadDeclaration declared, PhotoDraft draft)
    {
        if (declared.SizeBytes is { } size && size != draft.SizeBytes)
        {
            throw SizeMismatch(declared, Text(draft.SizeBytes));
        }

        var actual = draft.Digest();
        if (declared.Sha256.Length > 0 && declared.Sha256 != actual)
        {
            throw new CoatScanException(
                ErrorReason.DigestMismatch,
                $"{declared.Sha256Field} is not the SHA-256 of the {draft.SizeBytes} bytes that came.",
                declared.Sha256Field,
                new Dictionary<string, string> { ["declared"] = declared.Sha256, ["actual"] = actual });
        }
    }

    private CoatScanException TooLarge(string field, long value) => new(
        ErrorReason.PhotoTooLarge,
        $"{field} is {value} bytes; at most {options.Value.MaxUploadBytes} are allowed.",
        field,
        new Dictionary<string, string>
        {
            ["what"] = "bytes",
            ["value"] = Text(value),
            ["limit"] = Text(options.Value.MaxUploadBytes),
        });

    private CoatScanException Busy() => new(
        ErrorReason.ServerBusy,
        $"{options.Value.MaxUploads} uploads are being received; try again after the delay.",
        metadata: new Dictionary<string, string> { ["max_uploads"] = Text(options.Value.MaxUploads) });

    private static CoatScanException SizeMismatch(UploadDeclaration declared, string received) => new(
        ErrorReason.SizeMismatch,
        $"{declared.SizeField} is {declared.SizeBytes}, but {received} bytes came.",
        declared.SizeField,
        new Dictionary<string, string> { ["declared"] = Text(declared.SizeBytes ?? 0), ["received"] = received });

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
