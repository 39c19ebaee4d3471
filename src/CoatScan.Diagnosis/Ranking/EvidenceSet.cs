using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>The evidence of one panel in one canonical order, so that the order of the request cannot matter.</summary>
internal sealed class EvidenceSet
{
    private const string Caller = "caller";
    private const string Reading = "reading";

    private readonly HashSet<string> _ids = new(StringComparer.Ordinal);
    private readonly HashSet<string> _trials = new(StringComparer.Ordinal);
    private readonly HashSet<string> _tests = new(StringComparer.Ordinal);
    private readonly HashSet<string> _groups = new(StringComparer.Ordinal);

    public EvidenceSet(PanelFacts facts, PhotoEvidence? photo, KnowledgeBase knowledge)
    {
        var items = new List<EvidenceItem>();
        var brought = new HashSet<string>(StringComparer.Ordinal);
        ILookup<string, string> saidBy = facts.Statements.ToLookup(s => s.Evidence, s => s.SaidBy, StringComparer.Ordinal);
        HashSet<string> byCaller = [.. facts.Evidence];
        foreach (string id in byCaller.Concat(saidBy.Select(s => s.Key)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            IEnumerable<string> named = saidBy[id].Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
            Add(id, EvidenceOrigin.Caller, byCaller.Contains(id) ? [Caller, .. named] : [.. named]);
            brought.Add(knowledge.Evidence[id].Group);
        }

        HasCallerForm = brought.Contains("form");
        foreach ((string id, _) in ReadingEvidence.From(facts, knowledge.Ranking.Readings))
        {
            Add(id, EvidenceOrigin.Reading, [Reading]);
        }

        foreach (string id in photo?.MeasuredSigns.Order(StringComparer.Ordinal) ?? Enumerable.Empty<string>())
        {
            if (!knowledge.Evidence.TryGetValue(id, out EvidenceTerm? term) || term.Group == "form")
            {
                throw new ArgumentException($"'{id}' is no sign that a photo can measure.", nameof(photo));
            }

            // Eyes at the car win over a photo: the caller's sign of the same group replaces the measured one.
            if (!brought.Contains(term.Group))
            {
                Add(id, EvidenceOrigin.Photo, PhotoNames(photo!.PhotosOf.GetValueOrDefault(id, [])));
            }
        }

        PhotoView? view = photo is null ? null : new(photo, knowledge);
        PhotoShowsPanel = view?.IsPanel ?? true;
        if (view is { IsPanel: true } && !HasCallerForm)
        {
            Photo = view;
            items.Add(view.Item with { SaidBy = PhotoNames(photo!.PhotosOf.GetValueOrDefault(view.Top.Id, [])) });
        }

        Items = items;
        Ids = [.. _ids.Order(StringComparer.Ordinal)];

        static IReadOnlyList<string> PhotoNames(IReadOnlyList<int> photos) =>
            photos.Count == 0 ? ["photo"] : [.. photos.Select(n => $"photo {n}")];

        void Add(string id, EvidenceOrigin origin, IReadOnlyList<string> said)
        {
            if (!_ids.Add(id))
            {
                int place = items.FindIndex(i => i.Id == id);
                items[place] = items[place] with { SaidBy = [.. items[place].SaidBy, .. said] };
                return;
            }

            EvidenceTerm term = knowledge.Evidence[id];
            items.Add(new(id, origin, term.Text) { SaidBy = said });
            _groups.Add(term.Group);
            if (knowledge.Trials.TrialOf(id) is { } trial)
            {
                _trials.Add(trial);
            }

            if (knowledge.Trials.TestOf(id) is { } test)
            {
                _tests.Add(test);
            }
        }
    }

    /// <summary>What was brought: caller, readings, photo; each by id.</summary>
    public IReadOnlyList<EvidenceItem> Items { get; }

    /// <summary>Ids of the vocabulary, ordinal.</summary>
    public IReadOnlyList<string> Ids { get; }

    /// <summary>What the photo shows, where it counts: no form sign of the caller replaces it.</summary>
    public PhotoView? Photo { get; }

    /// <summary>Whether the photo shows a panel; true without a photo.</summary>
    public bool PhotoShowsPanel { get; }

    /// <summary>Whether the caller named a form sign.</summary>
    public bool HasCallerForm { get; }

    public bool Has(string id) => _ids.Contains(id);

    public bool HasAny(IEnumerable<string> ids) => ids.Any(_ids.Contains);

    public bool HasGroup(string group) => _groups.Contains(group);

    /// <summary>Whether an outcome of this test was brought.</summary>
    public bool Made(string test) => _tests.Contains(test);

    /// <summary>Whether an outcome of the same trial was brought.</summary>
    public bool MadeTrial(string trial) => _trials.Contains(trial);
}
