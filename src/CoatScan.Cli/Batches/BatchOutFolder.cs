namespace CoatScan.Cli.Batches;

/// <summary>The folder of <c>--out</c>: findings.ndjson, summary.csv, summary.html, summary.txt and sheets, each whole or not there.</summary>
internal sealed class BatchOutFolder
{
    private readonly string _path;

    private BatchOutFolder(string path) => _path = path;

    /// <summary>Opens the folder, and creates it if need be.</summary>
    /// <exception cref="CommandException">It cannot be written to.</exception>
    public static BatchOutFolder Open(string path)
    {
        try
        {
            Directory.CreateDirectory(path);
            return new(path);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw CommandException.Usage($"--out: '{path}' cannot be written to: {failure.Message}");
        }
    }

    /// <summary>Writes one text file beside its place and moves it there when it is complete.</summary>
    /// <exception cref="CommandException">The folder cannot be written to any more.</exception>
    public Task WriteAsync(string name, Func<TextWriter, Task> write) => PlaceAsync(name, async part =>
    {
        await using var file = new StreamWriter(part) { NewLine = "\n" };
        await write(file);
    });

    /// <summary>Writes one file beside its place and moves it there when it is complete; in a folder below where its name says so.</summary>
    /// <exception cref="CommandException">The folder cannot be written to any more.</exception>
    public Task WriteAsync(string name, byte[] content, CancellationToken cancellationToken) =>
        PlaceAsync(name, part => File.WriteAllBytesAsync(part, content, cancellationToken));

    private async Task PlaceAsync(string name, Func<string, Task> write)
    {
        var path = Path.Combine(_path, name);
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            await write(path + ".part");
            File.Move(path + ".part", path, overwrite: true);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Failed($"--out: '{path}' cannot be written: {failure.Message}");
        }
    }
}
