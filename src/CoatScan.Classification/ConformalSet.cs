namespace CoatScan.Classification;

/// <summary>
/// The classes that a photo cannot exclude: split-conformal prediction (Vovk, Gammerman, Shafer, "Algorithmic Learning in a Random World",
/// 2005) with the adaptive score of Romano, Sesia and Candes ("Classification with valid and adaptive coverage", 2020, arXiv:2006.02544).
/// Their random share of the class's own probability is 0 here: equal photos must give equal findings.
/// </summary>
/// <remarks>
/// The promise: among photos like those of the calibration (rendered panels, nothing else), the true class lies in the set for at least the
/// stated share. Nothing is promised for real photos.
/// </remarks>
internal static class ConformalSet
{
    /// <summary>Score of one class: the probabilities of all more probable ones, [0, 1). The sets hold low scores.</summary>
    public static double Score(ReadOnlySpan<double> probabilities, int classIndex)
    {
        var sum = 0.0;
        for (var i = 0; i < probabilities.Length; i++)
        {
            var isAhead = probabilities[i] > probabilities[classIndex] || (probabilities[i] == probabilities[classIndex] && i < classIndex);
            sum += isAhead ? probabilities[i] : 0;
        }

        return sum;
    }

    /// <summary>One flag a class: whether it cannot be excluded. The most probable class never can: its score is 0.</summary>
    /// <param name="probabilities">Calibrated probabilities.</param>
    /// <param name="cutoff">The largest score that stays in the set.</param>
    public static bool[] Of(ReadOnlySpan<double> probabilities, double cutoff)
    {
        var members = new bool[probabilities.Length];
        for (var i = 0; i < members.Length; i++)
        {
            members[i] = Score(probabilities, i) <= cutoff;
        }

        return members;
    }
}
