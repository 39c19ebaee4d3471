namespace CoatScan.Diagnosis;

/// <summary>Which outcomes belong to one trial, and which test makes it.</summary>
/// <remarks>
/// <c>test.mild_acid.removes</c> and <c>test.mild_acid.no_effect</c> are outcomes of the trial <c>test.mild_acid</c>;
/// film and measured evidence belongs to the one test that lists it.
/// </remarks>
internal sealed class TrialTable
{
    private readonly Dictionary<string, string> _trials = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _tests = new(StringComparer.Ordinal);

    public TrialTable(KnowledgeBase knowledge)
    {
        foreach (TestEntry test in knowledge.Tests.Values)
        {
            foreach (string outcome in test.Outcomes)
            {
                _tests[outcome] = test.Id;
                _trials[outcome] = test.Id;
            }
        }

        foreach (EvidenceTerm term in knowledge.Evidence.Values.Where(t => t.Group == "test"))
        {
            _trials[term.Id] = term.Id[..term.Id.LastIndexOf('.')];
        }
    }

    /// <summary>The trial that a piece of evidence is an outcome of; null if it is none.</summary>
    public string? TrialOf(string evidence) => _trials.GetValueOrDefault(evidence);

    /// <summary>Id of the test that can give a piece of evidence; null if there is none.</summary>
    public string? TestOf(string evidence) => _tests.GetValueOrDefault(evidence);
}
