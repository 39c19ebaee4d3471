using System.Text;
using CoatScan.Diagnosis;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Files of the knowledge base: a first line with the file's name, then what is put in its place.</summary>
internal sealed class KnowledgeTarget : IFuzzTarget, IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-fuzz-").FullName;
    private readonly Dictionary<string, byte[]> _files = [];

    /// <param name="knowledgeFolder">The shipped knowledge; a copy of it is changed.</param>
    public KnowledgeTarget(string knowledgeFolder)
    {
        foreach (var path in Directory.EnumerateFiles(knowledgeFolder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            var name = Path.GetRelativePath(knowledgeFolder, path);
            var copy = Path.Combine(_folder, name);
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(path, copy);
            if (name.EndsWith(".yaml", StringComparison.Ordinal))
            {
                _files.Add(name, File.ReadAllBytes(path));
            }
        }
    }

    /// <inheritdoc/>
    public string Name => "knowledge";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds => _files.Where(file => file.Value.Length < 20_000 || file.Key == "evidence.yaml")
        .Select(file => (byte[])[.. Encoding.UTF8.GetBytes(file.Key), (byte)'\n', .. file.Value]);

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus)
    {
        var input = mutator.Pick(corpus);
        return mutator.Change(input, corpus, Array.IndexOf(input, (byte)'\n') + 1);
    }

    /// <inheritdoc/>
    public Task<string> RunAsync(byte[] prepared)
    {
        var lineEnd = Array.IndexOf(prepared, (byte)'\n');
        var name = Encoding.UTF8.GetString(prepared.AsSpan(0, Math.Max(0, lineEnd)));
        if (!_files.TryGetValue(name, out var original))
        {
            return Task.FromResult("no file of the knowledge");
        }

        var path = Path.Combine(_folder, name);
        File.WriteAllBytes(path, prepared[(lineEnd + 1)..]);
        try
        {
            KnowledgeBase.Load(_folder);
            return Task.FromResult("loaded");
        }
        catch (InvalidDataException refusal) when (!refusal.Message.Contains('\n', StringComparison.Ordinal))
        {
            return Task.FromResult(TextShape.Of(refusal.Message.Replace(name, "FILE", StringComparison.Ordinal)));
        }
        finally
        {
            File.WriteAllBytes(path, original);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
