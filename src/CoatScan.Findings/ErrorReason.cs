namespace CoatScan.Findings;

/// <summary>Why a request was refused. The names on the wire are these in upper snake case.</summary>
public enum ErrorReason
{
    /// <summary>The bytes are no readable image.</summary>
    PhotoUnreadable,

    /// <summary>The image ends before its data does.</summary>
    PhotoTruncated,

    /// <summary>Neither JPEG nor PNG.</summary>
    PhotoFormatNotAllowed,

    /// <summary>Above a limit of bytes, pixels, side or aspect.</summary>
    PhotoTooLarge,

    /// <summary>Color model other than gray, YCbCr or RGB, for example CMYK.</summary>
    PhotoColorModelNotAllowed,

    /// <summary>A color profile that cannot be converted faithfully.</summary>
    PhotoColorProfileNotAllowed,

    /// <summary>More than one frame.</summary>
    PhotoMultiFrame,

    /// <summary>The declared digest is not that of the bytes.</summary>
    DigestMismatch,

    /// <summary>More or fewer bytes came than were declared.</summary>
    SizeMismatch,

    /// <summary>An upload paused, crept or took too long.</summary>
    UploadTooSlow,

    /// <summary>No photo, or more than allowed.</summary>
    PhotoCountOutOfRange,

    /// <summary>An evidence id that the vocabulary lacks.</summary>
    EvidenceUnknown,

    /// <summary>Two outcomes of one test.</summary>
    EvidenceConflict,

    /// <summary>A number outside its range.</summary>
    ValueOutOfRange,

    /// <summary>A field that is malformed or too long.</summary>
    FieldInvalid,

    /// <summary>The request id was used for another request.</summary>
    RequestIdReused,

    /// <summary>There is no such finding.</summary>
    FindingNotFound,

    /// <summary>There is no such stored photo.</summary>
    PhotoNotFound,

    /// <summary>There is no such condition.</summary>
    ConditionNotFound,

    /// <summary>All workers are busy and the queue is full.</summary>
    ServerBusy,

    /// <summary>The deadline of the call cannot be met; nothing was begun.</summary>
    DeadlineTooShort,

    /// <summary>The store does not answer.</summary>
    StorageUnavailable,

    /// <summary>The server is stopping.</summary>
    Draining,

    /// <summary>There is no such batch.</summary>
    BatchNotFound,

    /// <summary>The id of a batch is taken.</summary>
    BatchExists,

    /// <summary>The batch takes no more items, or cannot be started any more.</summary>
    BatchNotOpen,

    /// <summary>Items of the batch still wait or run.</summary>
    BatchNotAtRest,

    /// <summary>The key of an item is taken by an item of other content.</summary>
    ItemExists,

    /// <summary>The batch has changed since the caller read it.</summary>
    EtagMismatch,

    /// <summary>The worker process ended during every attempt.</summary>
    WorkerLost,

    /// <summary>The call carries no credential, or one that does not hold.</summary>
    Unauthenticated,

    /// <summary>The credential does not allow this.</summary>
    Forbidden,

    /// <summary>The tenant has used up what it may.</summary>
    QuotaExceeded,

    /// <summary>There is no such key.</summary>
    KeyNotFound,

    /// <summary>A fault of ours.</summary>
    InternalError,
}
