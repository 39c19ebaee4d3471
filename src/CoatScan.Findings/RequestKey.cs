namespace CoatScan.Findings;

/// <summary>What makes two requests the same one (AIP-155).</summary>
/// <param name="RequestId">The caller's id of the request, 1 to 128 characters.</param>
/// <param name="RequestHash">Digest over all that the answer depends on, 1 to 128 characters.</param>
public sealed record RequestKey(string RequestId, string RequestHash);
