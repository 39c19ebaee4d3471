namespace CoatScan.Cli.Input;

/// <summary>Reads the value of <c>--evidence</c>: ids separated by commas, or a file of them.</summary>
internal static class EvidenceList
{
    // A vocabulary is a few hundred short ids; a file beyond this is something else, a photo for instance.
    private const long LargestFileBytes = 1024 * 1024;

    private static readonly char[] Separators = [',', ' ', '\t'];

    /// <summary>The ids in the order given, without repeats.</summary>
    /// <exception cref="CommandException">Neither a readable file nor ids.</exception>
    public static IReadOnlyList<string> Read(string given)
    {
        ArgumentNullException.ThrowIfNull(given);
        if (File.Exists(given))
        {
            return ReadFile(given);
        }

        var ids = Split([given]);
        foreach (var id in ids)
        {
            if (!LooksLikeId(id))
            {
                throw CommandException.Usage(
                    $"--evidence: '{id}' is neither a file nor an id such as form.rings; "
                    + "'coatscan evidence' lists the ids.");
            }
        }

        return ids.Count > 0
            ? ids
            : throw CommandException.Usage("--evidence takes a file or ids separated by commas; nothing is given.");
    }

    private static List<string> ReadFile(string path)
    {
        try
        {
            if (new FileInfo(path).Length > LargestFileBytes)
            {
                throw CommandException.Usage($"--evidence: '{path}' is larger than 1 MiB; that is no list of ids.");
            }

            var lines = File.ReadAllLines(path);
            var ids = Split(lines.Select(WithoutComment));
            var odd = ids.Find(id => !LooksLikeId(id));
            return odd is null
                ? ids
                : throw CommandException.Usage($"--evidence: '{path}' holds '{odd}', which is no id such as form.rings.");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Usage($"--evidence: '{path}' cannot be read: {failure.Message}");
        }
    }

    private static string WithoutComment(string line)
    {
        var comment = line.IndexOf('#', StringComparison.Ordinal);
        return comment < 0 ? line : line[..comment];
    }

    private static List<string> Split(IEnumerable<string> lines) =>
    [
        .. lines
            .SelectMany(line => line.Split(Separators, StringSplitOptions.RemoveEmptyEntries))
            .Select(word => word.Trim())
            .Where(word => word.Length > 0)
            .Distinct(StringComparer.Ordinal),
    ];

    private static bool LooksLikeId(string word) =>
        word.Contains('.', StringComparison.Ordinal)
        && word.All(letter => char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter) || letter is '.' or '_');
}
