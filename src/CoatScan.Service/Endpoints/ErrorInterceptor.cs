using System.Diagnostics;
using CoatScan.Findings;
using CoatScan.Service.Telemetry;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;

namespace CoatScan.Service.Endpoints;

/// <summary>
/// The one place where refusals and faults become statuses, and where a stopping server stops taking calls.
/// </summary>
internal sealed class ErrorInterceptor(IHostApplicationLifetime lifetime, ILogger<ErrorInterceptor> logger) : Interceptor
{
    /// <inheritdoc />
    public override async Task<TResponse> UnaryServerHandler<TRequest, TResponse>(
        TRequest request,
        ServerCallContext context,
        UnaryServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            UnreadableRequest.MarkRead(context.GetHttpContext());
            RefuseWhenDraining();
            return await continuation(request, context).ConfigureAwait(false);
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw RichErrors.ToException(StatusOf(e, context.CancellationToken));
        }
    }

    /// <inheritdoc />
    public override async Task<TResponse> ClientStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        ServerCallContext context,
        ClientStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            UnreadableRequest.MarkRead(context.GetHttpContext());
            RefuseWhenDraining();
            return await continuation(requestStream, context).ConfigureAwait(false);
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw RichErrors.ToException(StatusOf(e, context.CancellationToken));
        }
    }

    /// <inheritdoc />
    public override async Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        ServerStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            UnreadableRequest.MarkRead(context.GetHttpContext());
            RefuseWhenDraining();
            await continuation(request, responseStream, context).ConfigureAwait(false);
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw RichErrors.ToException(StatusOf(e, context.CancellationToken));
        }
    }

    /// <inheritdoc />
    public override async Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        DuplexStreamingServerMethod<TRequest, TResponse> continuation)
    {
        try
        {
            UnreadableRequest.MarkRead(context.GetHttpContext());
            RefuseWhenDraining();
            await continuation(requestStream, responseStream, context).ConfigureAwait(false);
        }
        catch (Exception e) when (e is not RpcException)
        {
            throw RichErrors.ToException(StatusOf(e, context.CancellationToken));
        }
    }

    /// <summary>The status of anything that went wrong, logged and counted.</summary>
    public Google.Rpc.Status StatusOf(Exception error, CancellationToken cancellationToken)
    {
        switch (error)
        {
            case CoatScanException refusal:
                var reason = RichErrors.NameOf(refusal.Reason);
                ServiceTelemetry.Refused(reason);
                Log.Refused(logger, reason, refusal.Field ?? "");
                return RichErrors.ToStatus(refusal);
            case InvalidProtocolBufferException:
                // Of a stream each message is read on its way, so that one of them may be at fault.
                return StatusOf(UnreadableRequest.Refusal("A message of the stream cannot be read: its bytes are no message of this rpc."), cancellationToken);
            case OperationCanceledException when cancellationToken.IsCancellationRequested:
                return new Google.Rpc.Status
                {
                    Code = (int)Google.Rpc.Code.Cancelled,
                    Message = "The caller ended the call or its deadline passed.",
                };
            default:
                var traceId = Activity.Current?.TraceId.ToString() ?? "none";
                ServiceTelemetry.Refused("INTERNAL_ERROR");
                Log.Failed(logger, traceId, error);
                return RichErrors.Internal(traceId);
        }
    }

    /// <summary>Refuses a call that comes while the server stops.</summary>
    /// <exception cref="CoatScanException">DRAINING.</exception>
    public void RefuseWhenDraining()
    {
        if (lifetime.ApplicationStopping.IsCancellationRequested)
        {
            throw new CoatScanException(ErrorReason.Draining, "The server is stopping; call another one or try again.");
        }
    }
}
