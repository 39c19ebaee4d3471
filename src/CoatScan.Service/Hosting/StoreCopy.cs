namespace CoatScan.Service.Hosting;

/// <summary>What a copy of a store holds.</summary>
/// <param name="FindingCount">Findings.</param>
/// <param name="PhotoCount">Photos, each checked against its digest.</param>
/// <param name="PhotoBytes">Bytes of these photos.</param>
/// <param name="DamagedPhotos">Names of photos whose bytes are missing or damaged; the copy lacks them.</param>
public sealed record StoreCopy(
    long FindingCount, long PhotoCount, long PhotoBytes, IReadOnlyList<string> DamagedPhotos);
