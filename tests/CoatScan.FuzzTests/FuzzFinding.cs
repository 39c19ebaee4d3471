namespace CoatScan.FuzzTests;

/// <summary>Something the program must not do.</summary>
/// <param name="Target">Name of the target.</param>
/// <param name="What">What it did, on one line.</param>
/// <param name="Input">The input that made it.</param>
internal sealed record FuzzFinding(string Target, string What, byte[] Input);
