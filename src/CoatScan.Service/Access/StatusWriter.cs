using CoatScan.Service.Endpoints;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Microsoft.Net.Http.Headers;

namespace CoatScan.Service.Access;

/// <summary>Answers with a status outside of an rpc: as gRPC to a gRPC caller, as JSON to everybody else.</summary>
internal sealed class StatusWriter(ErrorInterceptor errors)
{
    private const string GrpcContentType = "application/grpc";

    private static readonly JsonFormatter Json = new(JsonFormatter.Settings.Default
        .WithFormatDefaultValues(true)
        .WithTypeRegistry(TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor)));

    /// <summary>Answers a call that is refused or went wrong.</summary>
    public Task FailAsync(HttpContext context, Exception error)
    {
        var status = errors.StatusOf(error, context.RequestAborted);
        if (context.Request.ContentType?.StartsWith(GrpcContentType, StringComparison.OrdinalIgnoreCase) is true)
        {
            WriteTrailersOnly(context.Response, status);
            return Task.CompletedTask;
        }

        context.Response.StatusCode = HttpStatus.Of((Code)status.Code);
        if (status.GetDetail<RetryInfo>() is { } retry)
        {
            context.Response.Headers[HeaderNames.RetryAfter] = $"{(long)Math.Ceiling(retry.RetryDelay.ToTimeSpan().TotalSeconds)}";
        }

        if (status.Code == (int)Code.Unauthenticated)
        {
            // Basic makes a browser ask its user; programs know better.
            context.Response.Headers[HeaderNames.WWWAuthenticate] =
                context.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal)
                    ? "Basic realm=\"CoatScan: the API key as password\", charset=\"UTF-8\""
                    : "Bearer";
        }

        return WriteAsync(context, status);
    }

    /// <summary>Writes a message as the JSON endpoint does.</summary>
    public static Task WriteAsync(HttpContext context, IMessage answer)
    {
        context.Response.ContentType = "application/json";
        return context.Response.WriteAsync(Json.Format(answer), context.RequestAborted);
    }

    // A response of headers alone, which the gRPC protocol takes as trailers.
    private static void WriteTrailersOnly(Microsoft.AspNetCore.Http.HttpResponse response, Google.Rpc.Status status)
    {
        response.StatusCode = StatusCodes.Status200OK;
        response.ContentType = GrpcContentType;
        response.Headers["grpc-status"] = $"{status.Code}";
        response.Headers["grpc-message"] = Uri.EscapeDataString(status.Message);
        response.Headers["grpc-status-details-bin"] = Convert.ToBase64String(status.ToByteArray());
        foreach (var trailer in RichErrors.ToException(status).Trailers.Where(one => one.Key == RichErrors.PushbackTrailer))
        {
            response.Headers[trailer.Key] = trailer.Value;
        }
    }
}
