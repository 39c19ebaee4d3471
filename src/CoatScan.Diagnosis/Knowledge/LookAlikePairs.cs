namespace CoatScan.Diagnosis;

/// <summary>Which conditions are taken for one another: the pairs of the deciders and of the conditions' own lists.</summary>
internal sealed class LookAlikePairs
{
    private readonly HashSet<(string, string)> _pairs = [];

    public LookAlikePairs(KnowledgeBase knowledge)
    {
        IEnumerable<(string First, string Second)> pairs = knowledge.Deciders.Select(d => (d.First, d.Second))
            .Concat(knowledge.Conditions.SelectMany(c => c.LookAlikes.Select(l => (c.Id, l.Id))));
        foreach ((string first, string second) in pairs)
        {
            _pairs.Add((first, second));
            _pairs.Add((second, first));
        }
    }

    public bool Contains(string first, string second) => _pairs.Contains((first, second));
}
