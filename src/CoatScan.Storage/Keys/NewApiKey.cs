namespace CoatScan.Storage.Keys;

/// <summary>A key that was just made: the only time its secret is seen.</summary>
/// <param name="Key">What is known about it.</param>
/// <param name="Text">The key as its holder sends it.</param>
public sealed record NewApiKey(ApiKey Key, string Text);
