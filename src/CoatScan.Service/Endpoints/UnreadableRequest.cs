using System.Globalization;
using System.Text.Json;
using CoatScan.Findings;
using CoatScan.Service.Access;
using Grpc.AspNetCore.Server;
using Grpc.Core;

namespace CoatScan.Service.Endpoints;

/// <summary>Answers a request whose bytes are no message of its rpc as every other refusal is answered: with a reason.</summary>
/// <remarks>
/// The framework reads the message before any interceptor runs, and answers by itself if it cannot: UNKNOWN to gRPC, an error without details to
/// JSON. So whatever fails before <see cref="ErrorInterceptor"/> was reached is answered again here.
/// </remarks>
internal sealed class UnreadableRequest(RequestDelegate next, StatusWriter statuses)
{
    private const string GrpcContentType = "application/grpc";
    private const string StatusHeader = "grpc-status";

    private static readonly object Read = new();

    /// <summary>Serves one call.</summary>
    public Task InvokeAsync(HttpContext context)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>() is null)
        {
            return next(context);
        }

        return context.Request.ContentType?.StartsWith(GrpcContentType, StringComparison.OrdinalIgnoreCase) is true
            ? InvokeGrpcAsync(context)
            : InvokeJsonAsync(context);
    }

    /// <summary>Notes that the message of a call was read.</summary>
    public static void MarkRead(HttpContext context) => context.Items[Read] = Read;

    /// <summary>The refusal of a request that cannot be read.</summary>
    public static CoatScanException Refusal(string message) => new(ErrorReason.FieldInvalid, message);

    private static bool WasRead(HttpContext context) => context.Items.ContainsKey(Read);

    private async Task InvokeGrpcAsync(HttpContext context)
    {
        await next(context).ConfigureAwait(false);
        var failed = ((int)StatusCode.Unknown).ToString(CultureInfo.InvariantCulture);
        if (!context.Response.HasStarted && !WasRead(context) && context.Response.Headers[StatusHeader] == failed)
        {
            await statuses.FailAsync(context, Refusal("The request cannot be read: its bytes are no message of this rpc."))
                .ConfigureAwait(false);
        }
    }

    private async Task InvokeJsonAsync(HttpContext context)
    {
        var answer = context.Response.Body;
        await using var held = new HeldAnswer(answer, () => WasRead(context));
        context.Response.Body = held;
        try
        {
            await next(context).ConfigureAwait(false);
        }
        finally
        {
            context.Response.Body = answer;
        }

        if (held.Kept.IsEmpty)
        {
            return;
        }

        if (!context.Response.HasStarted && MessageOf(held.Kept) is { } message)
        {
            context.Response.Headers.ContentLength = null;
            await statuses.FailAsync(context, Refusal(message)).ConfigureAwait(false);
        }
        else
        {
            await answer.WriteAsync(held.Kept, context.RequestAborted).ConfigureAwait(false);
        }
    }

    // What the framework says, if it says that the request is at fault.
    private static string? MessageOf(ReadOnlyMemory<byte> json)
    {
        try
        {
            using var document = JsonDocument.Parse(json);
            return document.RootElement.TryGetProperty("code", out var code) && code.GetInt32() == (int)StatusCode.InvalidArgument
                ? document.RootElement.GetProperty("message").GetString()
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
