using System.Text;

namespace CoatScan.Cli.Output;

/// <summary>Names for files, without their ends, after what people called a photo, panel or vehicle; none is given twice.</summary>
internal sealed class FileStems
{
    private const int LongestStem = 120;

    private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Starts with names that nothing may take.</summary>
    public FileStems(IEnumerable<string> taken) => _taken.UnionWith(taken);

    /// <summary>A name that is free: two of one name, or of names that differ in case only, must not overwrite each other on any file system.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="otherwise">The name of one that has no letter a file may have.</param>
    public string Take(string name, string otherwise)
    {
        var first = Clean(name, otherwise);
        var stem = first;
        for (var number = 2; !_taken.Add(stem); number++)
        {
            stem = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{first}-{number}");
        }

        return stem;
    }

    private static string Clean(string name, string otherwise)
    {
        var clean = new StringBuilder(name.Length);
        foreach (var letter in name)
        {
            clean.Append(char.IsLetterOrDigit(letter) || letter is '-' or '_' or ' ' or '.' ? letter : '_');
        }

        var stem = clean.ToString().Trim(' ', '.');
        return stem.Length == 0 ? otherwise : stem[..Math.Min(stem.Length, LongestStem)];
    }
}
