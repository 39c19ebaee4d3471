namespace CoatScan.Diagnosis;

/// <summary>Shows a caller's text inside a message without trusting its length or its characters.</summary>
internal static class Quoted
{
    private const int LongestShown = 64;

    public static string Short(string text)
    {
        string shown = text.Length > LongestShown ? text[..LongestShown] + "..." : text;
        return string.Concat(shown.Select(c => char.IsControl(c) || char.IsSurrogate(c) ? '?' : c));
    }
}
