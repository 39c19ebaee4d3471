using CoatScan.Findings;

namespace CoatScan.Storage.Keys;

/// <summary>What is known about an API key; its secret is not among it.</summary>
/// <param name="Id">Public part, <see cref="ApiKeySecret.IdLength"/> lower-case letters and digits.</param>
/// <param name="Tenant">Whose data it opens.</param>
/// <param name="Scope">What it allows.</param>
/// <param name="DisplayName">Name for people; may be empty.</param>
/// <param name="CreateTime">When it was made, UTC.</param>
/// <param name="ExpireTime">From when it does not hold any more, UTC; null for no end.</param>
/// <param name="RevokeTime">When it was revoked, UTC; null if it was not.</param>
public sealed record ApiKey(
    string Id,
    Tenant Tenant,
    AccessScope Scope,
    string DisplayName,
    DateTimeOffset CreateTime,
    DateTimeOffset? ExpireTime,
    DateTimeOffset? RevokeTime)
{
    /// <summary>Resource name, <c>keys/{id}</c>, as the audit log has it.</summary>
    public string Name => $"keys/{Id}";

    /// <summary>Whether it holds at a time.</summary>
    public bool HoldsAt(DateTimeOffset now) => RevokeTime is null && (ExpireTime is null || now < ExpireTime);
}
