namespace CoatScan.Reports;

/// <summary>A document to print or to read on a screen.</summary>
/// <param name="Title">Its name: the title of the file.</param>
/// <param name="RunningHead">What stands on top of every printed page.</param>
/// <param name="Language">Language of its words, as in HTML, for example <c>en</c>.</param>
/// <param name="Blocks">What it holds.</param>
public sealed record Sheet(string Title, string RunningHead, string Language, IReadOnlyList<Block> Blocks)
{
    /// <summary>Size of the printed letters as a multiple of that of a finding sheet.</summary>
    public double Scale { get; init; } = 1;

    /// <summary>Pages that it should not exceed on paper; letters and spaces shrink a little for it, but never below what is read with
    /// ease, so it may exceed them. 0 for any number.</summary>
    public int WantedPages { get; init; }
}
