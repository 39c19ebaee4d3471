namespace CoatScan.Service.Hosting;

/// <summary>The service cannot start; the message says why in one sentence.</summary>
public sealed class StartupException(string message, Exception? inner = null) : Exception(message, inner);
