namespace CoatScan.Findings;

/// <summary>A request that cannot be served, with everything the caller needs to mend it.</summary>
public sealed class CoatScanException : Exception
{
    /// <summary>Refuses a request.</summary>
    /// <param name="reason">Why.</param>
    /// <param name="message">One sentence that names the field and the limit.</param>
    /// <param name="field">Path of the field at fault, as in the JSON request; null if none is.</param>
    /// <param name="metadata">Every variable of the message, by name.</param>
    /// <param name="inner">What failed underneath.</param>
    public CoatScanException(
        ErrorReason reason,
        string message,
        string? field = null,
        IReadOnlyDictionary<string, string>? metadata = null,
        Exception? inner = null)
        : base(message, inner)
    {
        Reason = reason;
        Field = field;
        Metadata = metadata ?? new Dictionary<string, string>();
    }

    /// <summary>Why.</summary>
    public ErrorReason Reason { get; }

    /// <summary>Path of the field at fault, for example <c>facts.evidence[2]</c>; null if none is.</summary>
    public string? Field { get; }

    /// <summary>Every variable of the message, by name.</summary>
    public IReadOnlyDictionary<string, string> Metadata { get; }

    /// <summary>The same refusal, its field seen from one level further out.</summary>
    /// <param name="parent">Field that holds the field at fault, for example <c>photos[2]</c>.</param>
    public CoatScanException Under(string parent) =>
        new(Reason, Message, Field is null ? parent : $"{parent}.{Field}", Metadata, InnerException);
}
