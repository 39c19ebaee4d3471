using System.Text;
using CoatScan.Cli.Photos;

namespace CoatScan.Cli.Output;

/// <summary>The folder of <c>--out</c>: one JSON file a photo and a summary of all.</summary>
internal sealed class OutFolder : IDisposable
{
    private const int LongestStem = 120;
    private const string SummaryName = "summary.txt";

    private readonly string _path;
    private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase);
    private readonly FileStream _pages;

    private OutFolder(string path)
    {
        _path = path;

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
    /// <exception cref="CommandException">It cannot be written to.</exception>
    public static OutFolder Open(string path)
    {
        try
        {
            Directory.CreateDirectory(path);
            return new(path);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw CommandException.Usage($"--out: {path} cannot be written to: {failure.Message}");
        }
    }

    /// <summary>Adds one outcome.</summary>
    /// <param name="outcome">The outcome.</param>
    /// <param name="json">Its line of JSON.</param>
    /// <param name="page">Its page of text.</param>
    /// <param name="cancellationToken">Stops writing.</param>
    /// <exception cref="CommandException">The folder cannot be written to any more.</exception>
    public async Task AddAsync(
        PhotoOutcome outcome, string json, string page, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        var path = Path.Combine(_path, FileName(outcome.Name));
        try
        {
            await File.WriteAllTextAsync(path, json + "\n", cancellationToken);
            await _pages.WriteAsync(Encoding.UTF8.GetBytes(page + "\n"), cancellationToken);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Failed($"--out: {path} cannot be written: {failure.Message}");
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
            throw CommandException.Failed($"--out: {path} cannot be written: {failure.Message}");
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _pages.Dispose();

    // Two photos of one name, or of names that differ in case only, must not overwrite each other on any file system.
    private string FileName(string photo)
    {
        var stem = Stem(photo);
        var name = $"{stem}.json";
        for (var number = 2; !_taken.Add(name); number++)
        {
            name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{stem}-{number}.json");
        }

        return name;
    }

    private static string Stem(string photo)
    {
        var name = Path.GetFileNameWithoutExtension(photo.TrimEnd('/', '\\'));
        var clean = new StringBuilder(name.Length);
        foreach (var letter in name)
        {
            clean.Append(char.IsLetterOrDigit(letter) || letter is '-' or '_' or ' ' or '.' ? letter : '_');
        }

        var stem = clean.ToString().Trim(' ', '.');
        return stem.Length == 0 ? "photo" : stem[..Math.Min(stem.Length, LongestStem)];
    }
}
