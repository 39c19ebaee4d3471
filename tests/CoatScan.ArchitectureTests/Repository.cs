namespace CoatScan.ArchitectureTests;

/// <summary>The files of this repository.</summary>
internal static class Repository
{
    // What builds and tools leave behind, as in .gitignore.
    private static readonly HashSet<string> NotOurs =
    [
        ".git", "bin", "obj", ".vs", ".idea", "TestResults", "BenchmarkDotNet.Artifacts", "node_modules", "artifacts",
    ];

    // What the README's first command leaves behind at the root, as in .gitignore.
    private const string FindingsFolder = "findings";

    public static string Root { get; } = FindRoot();

    /// <summary>Every file, as a path from the root with slashes.</summary>
    public static IEnumerable<string> Files() => FilesIn(Root)
        .Select(file => Path.GetRelativePath(Root, file).Replace('\\', '/'))
        .Where(file => !file.StartsWith(FindingsFolder + "/", StringComparison.Ordinal));

    /// <summary>Names of the folders and files at the root.</summary>
    public static IEnumerable<string> TopLevel() => Directory.EnumerateFileSystemEntries(Root)
        .Select(path => Path.GetFileName(path)!)
        .Where(name => !NotOurs.Contains(name) && name != FindingsFolder);

    public static string FullPath(string file) => Path.Combine(Root, file);

    public static long SizeOf(IEnumerable<string> files) => files.Sum(file => new FileInfo(FullPath(file)).Length);

    private static IEnumerable<string> FilesIn(string folder)
    {
        foreach (var file in Directory.EnumerateFiles(folder))
        {
            if (!NotOurs.Contains(Path.GetFileName(file)))
            {
                yield return file;
            }
        }

        foreach (var inner in Directory.EnumerateDirectories(folder))
        {
            if (!NotOurs.Contains(Path.GetFileName(inner)))
            {
                foreach (var file in FilesIn(inner))
                {
                    yield return file;
                }
            }
        }
    }

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CoatScan.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("These tests run inside the repository.");
    }
}
