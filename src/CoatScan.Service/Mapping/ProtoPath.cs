using System.Text;

namespace CoatScan.Service.Mapping;

/// <summary>Path of a field as the contract spells it: <c>facts.readings.filmUm[0]</c> is <c>facts.readings.film_um[0]</c>.</summary>
internal static class ProtoPath
{
    public static string Of(string field)
    {
        var path = new StringBuilder(field.Length + 4);
        for (var i = 0; i < field.Length; i++)
        {
            var startsWord = char.IsAsciiLetterUpper(field[i]) ||
                (char.IsAsciiDigit(field[i]) && i > 0 && char.IsAsciiLetter(field[i - 1]) && !InDigest(field, i));
            if (startsWord)
            {
                path.Append('_');
            }

            path.Append(char.ToLowerInvariant(field[i]));
        }

        return path.ToString();
    }

    // "sha256" is one word.
    private static bool InDigest(string field, int i) =>
        i >= 3 && field.AsSpan(i - 3, 3).Equals("sha", StringComparison.Ordinal);
}
