namespace CoatScan.Storage.Backup;

/// <summary>What a copy of a store holds.</summary>
/// <param name="FindingCount">Findings in the database.</param>
/// <param name="PhotoCount">Photos whose bytes were copied, checked against their digests.</param>
/// <param name="PhotoBytes">Bytes of these photos.</param>
/// <param name="DamagedPhotos">Names of photos whose bytes are missing or damaged.</param>
public sealed record BackupSummary(
    long FindingCount, long PhotoCount, long PhotoBytes, IReadOnlyList<string> DamagedPhotos);
