namespace CoatScan.Cli.Photos;

/// <summary>One photo to send, or why an argument leads to none.</summary>
/// <param name="Name">The photo as the user knows it: the path as typed, or below the folder as typed.</param>
/// <param name="Path">Path to read.</param>
/// <param name="Error">Why there is nothing to read; null if there is.</param>
internal sealed record PhotoPlace(string Name, string Path, Connection.ServiceError? Error = null);
