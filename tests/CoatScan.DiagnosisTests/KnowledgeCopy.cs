namespace CoatScan.DiagnosisTests;

/// <summary>A copy of the knowledge folder that a test may break.</summary>
internal sealed class KnowledgeCopy : IDisposable
{
    public KnowledgeCopy()
    {
        foreach (string file in Directory.EnumerateFiles(Known.Folder, "*", SearchOption.AllDirectories))
        {
            string target = Path.Combine(Folder, Path.GetRelativePath(Known.Folder, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("coatscan-knowledge-").FullName;

    public void Edit(string file, string from, string to)
    {
        string path = Path.Combine(Folder, file);
        string text = File.ReadAllText(path);
        int at = text.IndexOf(from, StringComparison.Ordinal);
        Assert.True(at >= 0, $"'{from}' does not stand in {file}.");
        File.WriteAllText(path, string.Concat(text.AsSpan(0, at), to, text.AsSpan(at + from.Length)));
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
