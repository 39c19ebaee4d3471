namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>A folder that goes away with the test.</summary>
internal sealed class TempFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("coatscan-cli-").FullName;

    /// <summary>Writes a file, with the folders above it, and returns its path.</summary>
    public string Write(string name, byte[] content)
    {
        var path = System.IO.Path.Combine(Path, name);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, content);
        return path;
    }

    /// <summary>Writes a text file and returns its path.</summary>
    public string Write(string name, string content) => Write(name, System.Text.Encoding.UTF8.GetBytes(content));

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
