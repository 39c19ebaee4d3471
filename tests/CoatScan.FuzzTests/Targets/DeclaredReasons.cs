using System.Text.RegularExpressions;
using CoatScan.Findings;

namespace CoatScan.FuzzTests.Targets;

/// <summary>The reasons of the contract by their names on the wire; a fault of ours is none.</summary>
internal static partial class DeclaredReasons
{
    private static readonly HashSet<string> Names =
    [
        .. Enum.GetNames<ErrorReason>()
            .Where(name => name != nameof(ErrorReason.InternalError))
            .Select(name => Inside().Replace(name, "_$0").ToUpperInvariant()),
    ];

    /// <summary>Whether the contract has it.</summary>
    public static bool Has(string reason) => Names.Contains(reason);

    [GeneratedRegex("(?<!^)[A-Z]")]
    private static partial Regex Inside();
}
