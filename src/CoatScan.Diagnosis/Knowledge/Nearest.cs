namespace CoatScan.Diagnosis;

/// <summary>Suggests the known id that an unknown one was probably meant to be.</summary>
internal static class Nearest
{
    private const int LongestCompared = 64;

    /// <summary>A sentence " Did you mean 'x'?", or nothing if no id is near.</summary>
    public static string Hint(string id, IEnumerable<string> known) =>
        Find(id, known) is { } near ? $" Did you mean '{near}'?" : "";

    public static string? Find(string id, IEnumerable<string> known)
    {
        if (id.Length is 0 or > LongestCompared)
        {
            return null;
        }

        id = id.ToLowerInvariant();
        string? best = null;
        int bestDistance = Math.Max(2, id.Length / 4) + 1;
        foreach (string candidate in known)
        {
            // A bare last part ("rings") is the commonest slip of all.
            int distance = candidate.EndsWith("." + id, StringComparison.Ordinal) ? 0 : Distance(id, candidate);
            if (distance < bestDistance)
            {
                (best, bestDistance) = (candidate, distance);
            }
        }

        return best;
    }

    /// <summary>Levenshtein distance: fewest insertions, deletions and replacements.</summary>
    private static int Distance(string a, string b)
    {
        int[] row = new int[b.Length + 1];
        for (int j = 0; j <= b.Length; j++)
        {
            row[j] = j;
        }

        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int replace = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.Min(replace, Math.Min(row[j], row[j - 1]) + 1);
            }
        }

        return row[b.Length];
    }
}
