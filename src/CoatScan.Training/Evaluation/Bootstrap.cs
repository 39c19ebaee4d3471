namespace CoatScan.Training.Evaluation;

/// <summary>Percentile bootstrap (Efron 1979): the figure over resampled groups.</summary>
internal static class Bootstrap
{
    /// <summary>The figure and the 2.5 and 97.5 percentiles over resamples.</summary>
    /// <param name="groups">Group of each item: items of one group are drawn together, since they are not independent.</param>
    /// <param name="statistic">The figure of a list of item indexes.</param>
    /// <param name="rounds">Resamples.</param>
    /// <param name="seed">Start of the random sequence, so that a report repeats.</param>
    public static Interval Of(
        IReadOnlyList<string> groups, Func<IReadOnlyList<int>, double> statistic, int rounds = 1000, int seed = 7)
    {
        var byGroup = groups
            .Select((group, index) => (group, index))
            .GroupBy(pair => pair.group, pair => pair.index)
            .Select(group => group.ToArray())
            .ToArray();
        var random = new Random(seed);
        var values = new double[rounds];
        for (var round = 0; round < rounds; round++)
        {
            var items = new List<int>(groups.Count);
            for (var i = 0; i < byGroup.Length; i++)
            {
                items.AddRange(byGroup[random.Next(byGroup.Length)]);
            }

            values[round] = statistic(items);
        }

        Array.Sort(values);
        return new Interval(
            statistic([.. Enumerable.Range(0, groups.Count)]), Quantile(values, 0.025), Quantile(values, 0.975));
    }

    /// <summary>Quantile by linear interpolation between order statistics.</summary>
    public static double Quantile(IReadOnlyList<double> sorted, double level)
    {
        var at = level * (sorted.Count - 1);
        var low = (int)at;
        var high = Math.Min(low + 1, sorted.Count - 1);
        return sorted[low] + ((at - low) * (sorted[high] - sorted[low]));
    }
}
