namespace CoatScan.Diagnosis;

/// <summary>Works out, exactly over the current shares, what each test that was not made is worth.</summary>
/// <remarks>
/// <para>Gain of information: entropy of the shares now, less the entropy after each outcome, weighted by how probable
/// the outcome is.</para>
/// <para>Gain of decision: expected value of sample information (Raiffa and Schlaifer 1961) with a gain of 1 for the
/// right <see cref="Decision"/> and 0 for a wrong one: sum over outcomes of the largest joint probability of a decision,
/// less the largest probability of a decision now.</para>
/// </remarks>
internal sealed class TestValuer(KnowledgeBase knowledge)
{
    /// <summary>Values every test and look that was not made and whose outcomes are known, in the file's order.</summary>
    /// <param name="ranked">Conditions, most probable first.</param>
    /// <param name="decisions">Decision of each condition, by id.</param>
    /// <param name="evidence">What was brought.</param>
    public IReadOnlyList<TestValue> Value(
        IReadOnlyList<Scored> ranked,
        IReadOnlyDictionary<string, Decision> decisions,
        EvidenceSet evidence)
    {
        double[] shares = new double[ranked.Count];
        int[] places = new int[ranked.Count];
        int[] groups = new int[ranked.Count];
        var seen = new Dictionary<Decision, int>();
        for (int c = 0; c < ranked.Count; c++)
        {
            shares[c] = ranked[c].Share;
            places[c] = knowledge.Outcomes.PlaceOf(ranked[c].Id);
            Decision decision = decisions[ranked[c].Id];
            if (!seen.TryGetValue(decision, out groups[c]))
            {
                seen.Add(decision, groups[c] = seen.Count);
            }
        }

        double openBits = Entropy(shares, 1);
        double[] joint = new double[ranked.Count];
        double[] byDecision = new double[seen.Count];
        double certain = Best(shares, groups, byDecision);
        var values = new List<TestValue>();
        foreach (TestEntry test in knowledge.Tests.Values)
        {
            if (knowledge.Outcomes.Of(test.Id) is { } rows && !Known(test))
            {
                values.Add(Value(test, rows));
            }
        }

        return values;

        bool Known(TestEntry test) => test is { Outcomes.Count: 0, Look.Brings: { } group }
            ? evidence.HasGroup(group)
            : evidence.Made(test.Id);

        TestValue Value(TestEntry test, double[][] rows)
        {
            (double leftBits, double right) = (0, 0);
            var mayLead = new List<string>();
            foreach (double[] chances in rows)
            {
                (double total, int leader) = (0, 0);
                for (int c = 0; c < joint.Length; c++)
                {
                    joint[c] = shares[c] * chances[places[c]];
                    total += joint[c];
                    leader = joint[c] > joint[leader] ? c : leader;
                }

                if (total <= 0)
                {
                    continue;
                }

                leftBits += total * Entropy(joint, total);
                right += Best(joint, groups, byDecision);
                if (!mayLead.Contains(ranked[leader].Id))
                {
                    mayLead.Add(ranked[leader].Id);
                }
            }

            return new(test, Math.Max(0, openBits - leftBits), Math.Max(0, right - certain), Cost(test), mayLead);
        }
    }

    /// <summary>Whether the gain of decision pays for the test: then it could change what is decided.</summary>
    /// <remarks>
    /// Looks do not count here: whoever names what is seen has looked, and names what stands out. A sign that was not
    /// named does not hold up a verdict; it is asked for while the verdict is open for another reason.
    /// </remarks>
    public bool CouldChangeDecision(TestValue value) =>
        value.Test.Outcomes.Count > 0
        && value.DecisionGain >= knowledge.Ranking.Status.DecisionPrice * value.Cost;

    private static double Best(double[] weights, int[] groups, double[] byGroup)
    {
        Array.Clear(byGroup);
        for (int c = 0; c < weights.Length; c++)
        {
            byGroup[groups[c]] += weights[c];
        }

        return byGroup.Max();
    }

    private static double Entropy(double[] weights, double total)
    {
        double bits = 0;
        foreach (double weight in weights)
        {
            if (weight > 0)
            {
                double p = weight / total;
                bits -= p * Math.Log2(p);
            }
        }

        return bits;
    }

    private double Cost(TestEntry test) =>
        1 + (knowledge.Ranking.NextTests.MinuteCost * test.Minutes)
        + (knowledge.Ranking.NextTests.InvasivenessCost * test.Invasiveness);
}
