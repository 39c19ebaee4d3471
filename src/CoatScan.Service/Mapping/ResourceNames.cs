using CoatScan.Findings;

namespace CoatScan.Service.Mapping;

/// <summary>Resource names of the contract.</summary>
internal static class ResourceNames
{
    private const string FindingPrefix = "findings/";
    private const string ConditionPrefix = "conditions/";
    private const int MaxIdLength = 63;

    public static string Condition(string id) => ConditionPrefix + id;

    public static string Cause(string condition, string cause) => $"causes/{condition}.{cause}";

    /// <summary>The name itself, if it is one of a finding.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static string CheckFinding(string name)
    {
        Check(name, FindingPrefix);
        return name;
    }

    /// <summary>The id in a condition's name.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID.</exception>
    public static string ConditionId(string name)
    {
        Check(name, ConditionPrefix);
        return name[ConditionPrefix.Length..];
    }

    private static void Check(string name, string prefix)
    {
        var id = name.StartsWith(prefix, StringComparison.Ordinal) ? name[prefix.Length..] : "";
        if (id.Length is 0 or > MaxIdLength || !id.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_'))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"name must be {prefix} followed by 1 to {MaxIdLength} letters, digits, '-' or '_'.",
                "name",
                new Dictionary<string, string> { ["format"] = prefix + "{id}" });
        }
    }
}
