using Google.Rpc;

namespace CoatScan.Service.Endpoints;

/// <summary>HTTP status of a code, for routes that are no gRPC methods.</summary>
internal static class HttpStatus
{
    public static int Of(Code code) => code switch
    {
        Code.InvalidArgument => StatusCodes.Status400BadRequest,
        Code.Unauthenticated => StatusCodes.Status401Unauthorized,
        Code.PermissionDenied => StatusCodes.Status403Forbidden,
        Code.NotFound => StatusCodes.Status404NotFound,
        Code.AlreadyExists or Code.Aborted => StatusCodes.Status409Conflict,
        Code.FailedPrecondition => StatusCodes.Status400BadRequest,
        Code.DeadlineExceeded => StatusCodes.Status408RequestTimeout,
        Code.ResourceExhausted => StatusCodes.Status429TooManyRequests,
        Code.Unavailable => StatusCodes.Status503ServiceUnavailable,
        Code.Cancelled => StatusCodes.Status499ClientClosedRequest,
        _ => StatusCodes.Status500InternalServerError,
    };
}
