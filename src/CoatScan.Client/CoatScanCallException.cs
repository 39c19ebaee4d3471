using Google.Rpc;
using Grpc.Core;

namespace CoatScan.Client;

/// <summary>A call that the service refused or did not answer, with what a program needs to act on it.</summary>
public sealed class CoatScanCallException : Exception
{
    private CoatScanCallException(string message, RpcException cause)
        : base(message, cause)
    {
    }

    /// <summary>Status of the call.</summary>
    public required StatusCode StatusCode { get; init; }

    /// <summary>Reason in upper snake case, for example <c>DIGEST_MISMATCH</c>; empty if nobody answered.</summary>
    public string Reason { get; private init; } = "";

    /// <summary>Field of the request at fault; empty if none is named.</summary>
    public string Field { get; private init; } = "";

    /// <summary>Every variable of the message, by name.</summary>
    public IReadOnlyDictionary<string, string> Metadata { get; private init; } = new Dictionary<string, string>();

    /// <summary>When to try again; null if that would not help or is not said.</summary>
    public TimeSpan? RetryDelay { get; private init; }

    /// <summary>Whether the same call may succeed later. A quota that is spent does not come back by itself: then no delay is said.</summary>
    public bool IsTransient => StatusCode is StatusCode.Unavailable || (StatusCode is StatusCode.ResourceExhausted && RetryDelay is not null);

    /// <summary>Reads the error of a call.</summary>
    public static CoatScanCallException Of(RpcException failure)
    {
        ArgumentNullException.ThrowIfNull(failure);
        var status = failure.GetRpcStatus();
        var info = status?.GetDetail<ErrorInfo>();
        var violations = status?.GetDetail<BadRequest>()?.FieldViolations;
        return new CoatScanCallException(status?.Message ?? failure.Status.Detail, failure)
        {
            StatusCode = failure.StatusCode,
            Reason = info?.Reason ?? "",
            Field = violations is { Count: > 0 } ? violations[0].Field : "",
            Metadata = info?.Metadata.ToDictionary() ?? [],
            RetryDelay = status?.GetDetail<RetryInfo>()?.RetryDelay.ToTimeSpan(),
        };
    }
}
