namespace CoatScan.Storage.Rows;

/// <summary>One API key; the secret itself is nowhere.</summary>
internal sealed class ApiKeyRow : ITenantRow
{
    public string Tenant { get; set; } = "";

    /// <summary>The public part of the key, unique over all tenants.</summary>
    public required string Id { get; init; }

    /// <summary>SHA-256 of the secret part, lower-case hex. Of 256 random bits a fast hash is enough: nothing can be guessed.</summary>
    public required string SecretHash { get; init; }

    public required string Scope { get; init; }

    public required string DisplayName { get; init; }

    /// <summary>UTC, ticks of 100 ns.</summary>
    public required long CreateTimeTicks { get; init; }

    /// <summary>UTC, ticks of 100 ns; null for a key without an end.</summary>
    public long? ExpireTimeTicks { get; set; }

    /// <summary>UTC, ticks of 100 ns; null for a key that was not revoked.</summary>
    public long? RevokeTimeTicks { get; set; }
}
