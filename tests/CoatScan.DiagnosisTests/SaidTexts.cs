using System.Collections;
using System.Reflection;

namespace CoatScan.DiagnosisTests;

/// <summary>Every text for people inside an object, by the path to it; ids and a caller's own words are left out.</summary>
internal static class SaidTexts
{
    // Properties that hold ids or names of files.
    private static readonly HashSet<string> NoTexts =
    [
        "Id", "Family", "ClaimClass", "Party", "Onset", "Operation", "Operations", "Scope", "Signs", "Outcomes", "Group", "First", "Second",
        "Doubts", "Condition", "Cause", "Other", "DecidingTests", "Beside", "Matter", "Test", "AnyOf", "WhenAny", "UnlessAny",
        "Forbids", "Panels", "Panel", "Sources", "Metric", "Unit", "VisualClass", "Who", "Speed", "Speeds",
    ];

    public static IEnumerable<(string Path, string Text)> Of(object? value, string path)
    {
        switch (value)
        {
            case null or bool or double or int or Enum or DateOnly or DateTimeOffset:
                return [];
            case string text:
                return text.Length == 0 || text == "none" ? [] : [(path, text)];
            case IDictionary map:
                return map.Keys.Cast<object>().SelectMany(key => Of(map[key], $"{path}.{key}"));
            case IEnumerable all:
                return all.Cast<object>().SelectMany((one, at) => Of(one, $"{path}[{at}]"));
            default:
                return value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
                    .Where(property => property.GetIndexParameters().Length == 0 && !NoTexts.Contains(property.Name))
                    .Where(property => value is not HandOverRule || property.Name != nameof(HandOverRule.Conditions))
                    // When a test is asked for, in ids; a condition's look is told in words.
                    .Where(property => property.PropertyType != typeof(TestLook))
                    // Of a condition's evidence the reasons are texts; of a rule's, ids.
                    .Where(property => property.Name != "Evidence" || value.GetType().Namespace == "CoatScan.Findings" || value is PanelDiagnosis)
                    .SelectMany(property => Of(property.GetValue(value), $"{path}.{property.Name}"));
        }
    }
}
