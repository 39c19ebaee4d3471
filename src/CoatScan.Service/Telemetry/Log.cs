namespace CoatScan.Service.Telemetry;

/// <summary>Log lines of the service, ids 1000 to 1999. No photo bytes, no names that callers give.</summary>
internal static partial class Log
{
    [LoggerMessage(1000, LogLevel.Information,
        "Ready: gRPC on {GrpcEndpoint}, JSON, health and metrics on {HttpEndpoint}; model {Model}, knowledge {Knowledge}")]
    public static partial void Ready(
        ILogger logger, string grpcEndpoint, string httpEndpoint, string model, string knowledge);

    [LoggerMessage(1001, LogLevel.Information, "Refused: {Reason} {Field}")]
    public static partial void Refused(ILogger logger, string reason, string field);

    [LoggerMessage(1002, LogLevel.Error, "Failed, trace {TraceId}")]
    public static partial void Failed(ILogger logger, string traceId, Exception error);

    [LoggerMessage(1003, LogLevel.Information, "Removed {Count} findings older than {Days} days")]
    public static partial void Purged(ILogger logger, int count, int days);

    [LoggerMessage(1004, LogLevel.Warning, "Could not remove old findings; trying again later")]
    public static partial void PurgeFailed(ILogger logger, Exception error);

    [LoggerMessage(1005, LogLevel.Information,
        "Photos: removed {Removed}, marked {Expired} as expired, dropped {HalfReceived} half received and {Stray} stray files")]
    public static partial void Swept(ILogger logger, int removed, int expired, int halfReceived, int stray);

    [LoggerMessage(1006, LogLevel.Warning, "Could not clean up photos; trying again later")]
    public static partial void SweepFailed(ILogger logger, Exception error);

    [LoggerMessage(1007, LogLevel.Information,
        "Access is off: whoever works on this machine may do everything. Turn it on with 'coatscan serve --api-keys'")]
    public static partial void AccessOff(ILogger logger);

    [LoggerMessage(1008, LogLevel.Warning,
        "Access is off and other machines are let in: whoever reaches {Address} may do everything")]
    public static partial void AccessOffOnNetwork(ILogger logger, System.Net.IPAddress address);

    [LoggerMessage(1009, LogLevel.Information, "Access is on: {Ways}")]
    public static partial void AccessOn(ILogger logger, string ways);

    [LoggerMessage(1011, LogLevel.Warning,
        "Credentials come in clear text: set CoatScan:Tls, or let a proxy in front of the service speak TLS")]
    public static partial void CredentialsInClear(ILogger logger);

    [LoggerMessage(1010, LogLevel.Error, "Work on batches met a fault; it goes on")]
    public static partial void BatchTrouble(ILogger logger, Exception error);

    [LoggerMessage(1012, LogLevel.Warning, "The broker is away; batches wait until it is back")]
    public static partial void BrokerAway(ILogger logger, Exception error);
}
