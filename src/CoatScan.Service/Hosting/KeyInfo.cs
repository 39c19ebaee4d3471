namespace CoatScan.Service.Hosting;

/// <summary>What an operator sees of an API key.</summary>
/// <param name="Id">Public part.</param>
/// <param name="Tenant">Id of the tenant whose data it opens.</param>
/// <param name="Scope">What it allows: read, write or admin.</param>
/// <param name="DisplayName">Name for people; may be empty.</param>
/// <param name="CreateTime">When it was made, UTC.</param>
/// <param name="ExpireTime">From when it does not hold any more, UTC; null for no end.</param>
/// <param name="RevokeTime">When it was revoked, UTC; null if it was not.</param>
/// <param name="Holds">Whether it holds now.</param>
public sealed record KeyInfo(
    string Id,
    string Tenant,
    string Scope,
    string DisplayName,
    DateTimeOffset CreateTime,
    DateTimeOffset? ExpireTime,
    DateTimeOffset? RevokeTime,
    bool Holds);
