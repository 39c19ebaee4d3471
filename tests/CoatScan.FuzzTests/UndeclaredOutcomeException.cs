namespace CoatScan.FuzzTests;

/// <summary>An answer that the program does not declare.</summary>
internal sealed class UndeclaredOutcomeException(string message) : Exception(message);
