using System.Globalization;

namespace CoatScan.StressTests;

/// <summary>The words after the trial: <c>--name value</c>, or <c>--name</c> alone for yes.</summary>
internal sealed class TrialOptions
{
    private readonly Dictionary<string, string> _values = new(StringComparer.Ordinal);

    /// <exception cref="ArgumentException">A word is no option.</exception>
    public TrialOptions(IEnumerable<string> words)
    {
        string? name = null;
        foreach (var word in words)
        {
            if (word.StartsWith("--", StringComparison.Ordinal))
            {
                name = word[2..];
                _values.Add(name, "");
            }
            else if (name is not null)
            {
                _values[name] = word;
                name = null;
            }
            else
            {
                throw new ArgumentException($"'{word}' is no option.");
            }
        }
    }

    /// <summary>Whether an option stands alone or with any value.</summary>
    public bool Has(string name) => _values.ContainsKey(name);

    /// <summary>A text; empty if it is not given.</summary>
    public string Text(string name) => _values.GetValueOrDefault(name, "");

    /// <summary>A number above 0.</summary>
    /// <exception cref="ArgumentException">It is none.</exception>
    public double Number(string name, double otherwise)
    {
        if (!Has(name))
        {
            return otherwise;
        }

        return double.TryParse(Text(name), CultureInfo.InvariantCulture, out var value) && value > 0
            ? value
            : throw new ArgumentException($"--{name} takes a number above 0.");
    }

    /// <summary>A whole number above 0.</summary>
    public int Whole(string name, int otherwise) => (int)Number(name, otherwise);
}
