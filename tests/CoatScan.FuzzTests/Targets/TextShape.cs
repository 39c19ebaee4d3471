using System.Text.RegularExpressions;

namespace CoatScan.FuzzTests.Targets;

/// <summary>What a message says without what it says it about, so that equal kinds of refusals count as one outcome.</summary>
internal static partial class TextShape
{
    private const int Longest = 60;

    /// <summary>The message without numbers and quotations, cut short.</summary>
    public static string Of(string message)
    {
        var shape = Variable().Replace(message, "_");
        return shape.Length <= Longest ? shape : shape[..Longest];
    }

    [GeneratedRegex(@"'[^']*'|""[^""]*""|\d[\d.,]*|[^\x20-\x7e]+")]
    private static partial Regex Variable();
}
