namespace CoatScan.StressTests;

/// <summary>A folder for the length of a trial.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    /// <summary>Its path.</summary>
    public string Path { get; } = Directory.CreateTempSubdirectory("coatscan-stress-").FullName;

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(Path, recursive: true);
}
