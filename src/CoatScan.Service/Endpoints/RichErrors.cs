using System.Globalization;
using CoatScan.Findings;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;

namespace CoatScan.Service.Endpoints;

/// <summary>Turns a refusal of the domain into a google.rpc.Status with the details that clients act on.</summary>
internal static class RichErrors
{
    /// <summary>Domain of every ErrorInfo.</summary>
    public const string Domain = "coatscan.example";

    /// <summary>Trailer by which a gRPC server says when to retry (gRPC proposal A6).</summary>
    public const string PushbackTrailer = "grpc-retry-pushback-ms";

    private static readonly TimeSpan BusyDelay = TimeSpan.FromMilliseconds(800);
    private static readonly TimeSpan UnavailableDelay = TimeSpan.FromSeconds(2);

    /// <summary>The status of a refusal.</summary>
    public static Google.Rpc.Status ToStatus(CoatScanException refusal)
    {
        var status = new Google.Rpc.Status { Code = (int)CodeOf(refusal.Reason), Message = refusal.Message };
        var info = new ErrorInfo { Reason = NameOf(refusal.Reason), Domain = Domain };
        foreach (var (key, value) in refusal.Metadata)
        {
            info.Metadata[key] = value;
        }

        status.Details.Add(Any.Pack(info));
        if (refusal.Field is { } field && CodeOf(refusal.Reason) == Code.InvalidArgument)
        {
            status.Details.Add(Any.Pack(new BadRequest
            {
                FieldViolations =
                {
                    new BadRequest.Types.FieldViolation { Field = ProtoPath.Of(field), Description = refusal.Message },
                },
            }));
        }

        if (CodeOf(refusal.Reason) is Code.NotFound or Code.AlreadyExists)
        {
            status.Details.Add(Any.Pack(new ResourceInfo
            {
                ResourceType = $"{Domain}/{ResourceOf(refusal.Reason)}",
                ResourceName = refusal.Metadata.GetValueOrDefault("name", ""),
                Description = refusal.Message,
            }));
        }

        if (CodeOf(refusal.Reason) == Code.FailedPrecondition)
        {
            status.Details.Add(Any.Pack(new PreconditionFailure
            {
                Violations =
                {
                    new PreconditionFailure.Types.Violation
                    {
                        Type = "STATE",
                        Subject = refusal.Metadata.GetValueOrDefault("name", ""),
                        Description = refusal.Message,
                    },
                },
            }));
        }

        if (refusal.Reason == ErrorReason.QuotaExceeded)
        {
            status.Details.Add(Any.Pack(new QuotaFailure
            {
                Violations =
                {
                    new QuotaFailure.Types.Violation
                    {
                        Subject = refusal.Metadata.GetValueOrDefault("quota", ""),
                        Description = refusal.Message,
                    },
                },
            }));
        }

        if (RetryDelayOf(refusal) is { } delay)
        {
            status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(delay) }));
        }

        return status;
    }

    /// <summary>The status of a fault of ours: nothing of its inside goes out, only the id to look it up by.</summary>
    public static Google.Rpc.Status Internal(string traceId) => new()
    {
        Code = (int)Code.Internal,
        Message = "The service failed; the trace id finds it in the log.",
        Details =
        {
            Any.Pack(new ErrorInfo
            {
                Reason = "INTERNAL_ERROR",
                Domain = Domain,
                Metadata = { ["trace_id"] = traceId },
            }),
        },
    };

    /// <summary>The exception that sends a status, with the pushback trailer where a retry helps.</summary>
    public static RpcException ToException(Google.Rpc.Status status)
    {
        var exception = status.ToRpcException();
        if (status.Code == (int)Code.ResourceExhausted)
        {
            // Without a delay a retry does not help, and -1 says so.
            var delayMs = status.GetDetail<RetryInfo>() is { } retry ? (long)retry.RetryDelay.ToTimeSpan().TotalMilliseconds : -1;
            exception.Trailers.Add(PushbackTrailer, delayMs.ToString(CultureInfo.InvariantCulture));
        }

        return exception;
    }

    /// <summary>Name of a reason on the wire: upper snake case.</summary>
    public static string NameOf(ErrorReason reason) => UpperSnake.Of(reason);

    private static Code CodeOf(ErrorReason reason) => reason switch
    {
        ErrorReason.FindingNotFound or ErrorReason.ConditionNotFound or ErrorReason.PhotoNotFound => Code.NotFound,
        ErrorReason.UploadTooSlow or ErrorReason.DeadlineTooShort => Code.DeadlineExceeded,
        ErrorReason.BatchNotFound => Code.NotFound,
        ErrorReason.BatchExists or ErrorReason.ItemExists => Code.AlreadyExists,
        ErrorReason.BatchNotOpen or ErrorReason.BatchNotAtRest => Code.FailedPrecondition,
        ErrorReason.EtagMismatch => Code.Aborted,
        ErrorReason.WorkerLost or ErrorReason.InternalError => Code.Internal,
        ErrorReason.ServerBusy or ErrorReason.QuotaExceeded => Code.ResourceExhausted,
        ErrorReason.Unauthenticated => Code.Unauthenticated,
        ErrorReason.Forbidden => Code.PermissionDenied,
        ErrorReason.StorageUnavailable or ErrorReason.Draining => Code.Unavailable,
        _ => Code.InvalidArgument,
    };

    private static string ResourceOf(ErrorReason reason) => reason switch
    {
        ErrorReason.ConditionNotFound => "Condition",
        ErrorReason.PhotoNotFound => "Photo",
        ErrorReason.BatchNotFound or ErrorReason.BatchExists => "Batch",
        ErrorReason.ItemExists => "BatchItem",
        _ => "Finding",
    };

    private static TimeSpan? RetryDelayOf(CoatScanException refusal) => refusal.Reason switch
    {
        ErrorReason.ServerBusy or ErrorReason.QuotaExceeded when refusal.Metadata.TryGetValue(TenantQuotas.RetryAfterKey, out var delayMs) =>
            TimeSpan.FromMilliseconds(long.Parse(delayMs, CultureInfo.InvariantCulture)),
        ErrorReason.ServerBusy => BusyDelay,
        ErrorReason.StorageUnavailable or ErrorReason.Draining => UnavailableDelay,
        _ => null,
    };
}
