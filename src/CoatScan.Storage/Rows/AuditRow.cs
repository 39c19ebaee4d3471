namespace CoatScan.Storage.Rows;

/// <summary>One entry of the audit log; triggers of the database refuse to change or delete it.</summary>
internal sealed class AuditRow
{
    /// <summary>1, 2, 3, ... without gaps.</summary>
    public required long Sequence { get; init; }

    /// <summary>UTC, ISO 8601 with seven decimals: the log is read by people too.</summary>
    public required string Time { get; init; }

    public required string Action { get; init; }

    public required string Resource { get; init; }

    public required string Outcome { get; init; }

    /// <summary>Whose resource; null in entries of versions that knew no tenants, whose hash does not cover it.</summary>
    public string? Tenant { get; init; }

    /// <summary>Kind and id of the credential that was used; null as <see cref="Tenant"/>.</summary>
    public string? Actor { get; init; }

    public required string PreviousHash { get; init; }

    public required string Hash { get; init; }
}
