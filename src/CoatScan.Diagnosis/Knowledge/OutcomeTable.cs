namespace CoatScan.Diagnosis;

/// <summary>P(outcome | condition) of every test, worked out once: it does not depend on a case.</summary>
/// <remarks>
/// P(outcome | condition) is the outcome's factor on the condition over the sum of the factors of all outcomes; where a
/// test may honestly say nothing, that is one more outcome of factor 1. Outcomes carry no cap (caps hold for context
/// groups only), so a posterior updated by these is the posterior that ranking with the outcome would give. A look brings
/// one sign of its group; it is valued only while none of the group was brought, so no cap is reached there either.
/// </remarks>
internal sealed class OutcomeTable
{
    private readonly Dictionary<string, double[][]> _byTest = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string[]> _outcomes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _place = new(StringComparer.Ordinal);

    public OutcomeTable(KnowledgeBase knowledge)
    {
        for (int c = 0; c < knowledge.Conditions.Count; c++)
        {
            _place.Add(knowledge.Conditions[c].Id, c);
        }

        foreach (TestEntry test in knowledge.Tests.Values)
        {
            string[] outcomes = [.. OutcomesOf(test, knowledge)];
            if (outcomes.Length > 0)
            {
                _outcomes.Add(test.Id, outcomes);
                _byTest.Add(test.Id, Chances(outcomes, test.MaySayNothing, knowledge));
            }
        }
    }

    /// <summary>Place of a condition in the rows of <see cref="Of"/>.</summary>
    public int PlaceOf(string condition) => _place[condition];

    /// <summary>Chances of a test's outcomes: a row for each outcome, a column for each condition; null if unknown.</summary>
    public double[][]? Of(string test) => _byTest.GetValueOrDefault(test);

    /// <summary>What a test can say, or the signs that a look can bring; empty where that cannot be said.</summary>
    public IReadOnlyList<string> OutcomesOf(string test) => _outcomes.GetValueOrDefault(test, []);

    private static IEnumerable<string> OutcomesOf(TestEntry test, KnowledgeBase knowledge) =>
        test is { Outcomes.Count: 0, Look.Brings: { } group }
            ? knowledge.Evidence.Values.Where(e => e.Group == group).Select(e => e.Id)
            : test.Outcomes;

    private static double[][] Chances(string[] said, bool maySayNothing, KnowledgeBase knowledge)
    {
        int outcomes = said.Length + (maySayNothing ? 1 : 0);
        double[][] rows = new double[outcomes][];
        for (int o = 0; o < outcomes; o++)
        {
            rows[o] = new double[knowledge.Conditions.Count];
        }

        for (int c = 0; c < knowledge.Conditions.Count; c++)
        {
            double total = 0;
            for (int o = 0; o < outcomes; o++)
            {
                rows[o][c] = o < said.Length
                    ? Math.Exp(knowledge.Weights.ConditionLog(knowledge.Conditions[c].Id, said[o]))
                    : 1;
                total += rows[o][c];
            }

            for (int o = 0; o < outcomes; o++)
            {
                rows[o][c] /= total;
            }
        }

        return rows;
    }
}
