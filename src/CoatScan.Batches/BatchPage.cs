namespace CoatScan.Batches;

/// <summary>One page of a list.</summary>
/// <typeparam name="T">What is listed.</typeparam>
/// <param name="Rows">The rows, in the order of the list.</param>
/// <param name="NextPageToken">Asks for the next page; empty on the last page. Good for three days.</param>
public sealed record BatchPage<T>(IReadOnlyList<T> Rows, string NextPageToken);
