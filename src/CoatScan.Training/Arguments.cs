using System.Globalization;

namespace CoatScan.Training;

/// <summary>The words after the command: pairs of <c>--name value</c>.</summary>
internal sealed class Arguments
{
    private readonly Dictionary<string, string> _values = new(StringComparer.Ordinal);

    /// <exception cref="ArgumentException">A name without a value, or a value without a name.</exception>
    public Arguments(IReadOnlyList<string> words, IReadOnlyCollection<string> allowed)
    {
        for (var i = 0; i < words.Count; i += 2)
        {
            var name = words[i];
            if (!name.StartsWith("--", StringComparison.Ordinal) || !allowed.Contains(name[2..]))
            {
                throw new ArgumentException($"'{name}' is not one of --{string.Join(", --", allowed)}.");
            }

            if (i + 1 == words.Count)
            {
                throw new ArgumentException($"'{name}' needs a value.");
            }

            _values[name[2..]] = words[i + 1];
        }
    }

    public string? Optional(string name) => _values.GetValueOrDefault(name);

    /// <exception cref="ArgumentException">It was not given.</exception>
    public string Required(string name) => Optional(name) ?? throw new ArgumentException($"'--{name}' is missing.");

    /// <exception cref="ArgumentException">It is no whole number.</exception>
    public int Whole(string name, int otherwise)
    {
        var text = Optional(name);
        if (text is null)
        {
            return otherwise;
        }

        return int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out var value)
            ? value
            : throw new ArgumentException($"'--{name} {text}' is no whole number.");
    }

    /// <summary>Pairs <c>a=b,c=d</c>.</summary>
    public Dictionary<string, string> Map(string name) =>
        (Optional(name) ?? "")
            .Split(',', StringSplitOptions.RemoveEmptyEntries)
            .Select(pair => pair.Split('=', 2))
            .ToDictionary(
                pair => pair[0],
                pair => pair.Length == 2
                    ? pair[1]
                    : throw new ArgumentException($"'--{name}' needs pairs like label=visual_class."),
                StringComparer.Ordinal);
}
