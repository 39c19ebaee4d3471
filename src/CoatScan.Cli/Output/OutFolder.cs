using System.Text;
using CoatScan.Cli.Photos;

namespace CoatScan.Cli.Output;

/// <summary>The folder of <c>--out</c>: one JSON file a photo, a summary of all, and what else is written beside.</summary>
internal sealed class OutFolder : IDisposable
{
    private const string SummaryName = "summary.txt";

    private readonly string _path;
    private readonly FileStems _stems;
    private readonly FileStream _pages;

    private OutFolder(string path, IEnumerable<string> ownNames)
    {
        _path = path;
        _stems = new FileStems(ownNames);

        // The overview stands on top but is known last: the pages wait in a file rather than in memory.
        _pages = new FileStream(
            Path.Combine(path, ".summary.pages"),
            FileMode.Create,
            FileAccess.ReadWrite,
            FileShare.None,
            bufferSize: 4096,
            FileOptions.DeleteOnClose | FileOptions.Asynchronous);
    }

    /// <summary>Opens the folder, and creates it if need be.</summary>
    /// <param name="path">Where it is.</param>
    /// <param name="ownNames">Names of files without their ends that no photo may take.</param>
    /// <exception cref="CommandException">It cannot be written to.</exception>
    public static OutFolder Open(string path, IEnumerable<string> ownNames)
    {
        try
        {
            Directory.CreateDirectory(path);
            return new(path, ownNames);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw CommandException.Usage(Complaint(path, failure));
        }
    }

    /// <summary>Adds one outcome.</summary>
    /// <param name="outcome">The outcome.</param>
    /// <param name="json">Its line of JSON.</param>
    /// <param name="page">Its page of text.</param>
    /// <param name="cancellationToken">Stops writing.</param>
    /// <returns>Name of its files without their ends.</returns>
    /// <exception cref="CommandException">The folder cannot be written to any more.</exception>
    public async Task<string> AddAsync(
        PhotoOutcome outcome, string json, string page, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        var stem = _stems.Take(Path.GetFileNameWithoutExtension(outcome.Name.TrimEnd('/', '\\')), otherwise: "photo");
        await WriteAsync(stem + ".json", Encoding.UTF8.GetBytes(json + "\n"), cancellationToken);
        try
        {
            await _pages.WriteAsync(Encoding.UTF8.GetBytes(page + "\n"), cancellationToken);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Failed(Complaint(_path, failure));
        }

        return stem;
    }

    /// <summary>Writes one file, in a folder below where its name says so.</summary>
    /// <returns>Its path.</returns>
    /// <exception cref="CommandException">The folder cannot be written to any more.</exception>
    public async Task<string> WriteAsync(string name, byte[] content, CancellationToken cancellationToken)
    {
        var path = Path.Combine(_path, name);
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            await File.WriteAllBytesAsync(path, content, cancellationToken);
            return path;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Failed(Complaint(path, failure));
        }
    }

    /// <summary>Writes the summary: the overview, then the pages.</summary>
    /// <exception cref="CommandException">The folder cannot be written to any more.</exception>
    public async Task FinishAsync(string overview, CancellationToken cancellationToken)
    {
        var path = Path.Combine(_path, SummaryName);
        try
        {
            await using var summary = File.Create(path);
            await summary.WriteAsync(Encoding.UTF8.GetBytes(overview + "\n"), cancellationToken);
            _pages.Position = 0;
            await _pages.CopyToAsync(summary, cancellationToken);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Failed(Complaint(path, failure));
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _pages.Dispose();

    private static string Complaint(string path, Exception failure) =>
        $"--out: '{path}' cannot be written to: {failure.Message} Name a folder that this account may write to, on a disk with room.";
}
