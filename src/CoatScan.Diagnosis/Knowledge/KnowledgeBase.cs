using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Everything that is known about conditions, as reviewable data; immutable and safe to share.</summary>
public sealed class KnowledgeBase
{
    private KnowledgeBase(KnowledgeFolder folder)
    {
        Manifest manifest = folder.Read<Manifest>("manifest", "manifest");
        Version = manifest.Version;
        Status = manifest.Status;
        Evidence = Keyed<EvidenceTerm>(folder, "evidence", (e, id) => e with { Id = id });
        Tests = Keyed<TestEntry>(folder, "tests", (e, id) => e with { Id = id });
        Operations = Keyed<OperationEntry>(folder, "operations", (e, id) => e with { Id = id });
        Parties = Keyed<PartyEntry>(folder, "parties", (e, id) => e with { Id = id });
        Sources = Keyed<SourceEntry>(folder, "sources", (e, id) => e with { Key = id });
        Deciders = folder.Read<List<DeciderEntry>>("deciders", "deciders");
        ContradictionFile contradictions = folder.Read<ContradictionFile>("contradictions", "contradictions");
        Contradictions =
            [.. contradictions.Pairs.Select(p => p with { Consequence = contradictions.Doubts[p.Doubts] })];
        Ranking = folder.Read<RankingRules>("ranking", "ranking");
        Timing = folder.Read<Dictionary<string, TimingRule>>("timing", "timing");
        Cautions = folder.Read<List<GeneralCaution>>("cautions", "cautions");
        Care = folder.Read<CareCard>("care", "care");
        Film = folder.Read<FilmRules>("film", "film");
        Finishes = folder.Read<List<FinishRule>>("finishes", "finishes");
        Waits = folder.Read<List<WaitRule>>("waits", "waits");
        Claim = folder.Read<ClaimRules>("claim", "claim");
        HandOvers = folder.Read<List<HandOverRule>>("handovers", "handovers");
        SprayDay = folder.Read<SprayRules>("spray-day", "spray-day");
        Conditions =
        [
            .. folder.Names("conditions").Select(n =>
            {
                ConditionEntry entry = folder.Read<ConditionEntry>("conditions/" + n, "condition");
                return entry.Id == n
                    ? entry
                    : throw new InvalidDataException($"Knowledge file conditions/{n}.yaml calls itself '{entry.Id}'.");
            }),
        ];
        VisualClassFile seen = folder.Read<VisualClassFile>("visual-classes", "visual-classes");
        VisualClasses = seen.Classes.ToDictionary(p => p.Key, p => p.Value with { Id = p.Key }, StringComparer.Ordinal);
        ById = Conditions.ToDictionary(c => c.Id, StringComparer.Ordinal);
        KnowledgeIntegrity.Check(this, seen.Table);
        SeenUnder = new VisualTable(VisualClasses.Values, seen.Table);
        Weights = new WeightTable(this);
        Trials = new TrialTable(this);
        Outcomes = new OutcomeTable(this);
        LookAlikes = new LookAlikePairs(this);
    }

    /// <summary>Version that a finding's provenance prints.</summary>
    public string Version { get; }

    /// <summary>How far the numbers can be trusted.</summary>
    public string Status { get; }

    /// <summary>Conditions, by id in ordinal order.</summary>
    public IReadOnlyList<ConditionEntry> Conditions { get; }

    /// <summary>Evidence vocabulary by id, in the file's order.</summary>
    public IReadOnlyDictionary<string, EvidenceTerm> Evidence { get; }

    /// <summary>Tests and looks by id.</summary>
    public IReadOnlyDictionary<string, TestEntry> Tests { get; }

    /// <summary>Operations by id.</summary>
    public IReadOnlyDictionary<string, OperationEntry> Operations { get; }

    /// <summary>Parties by id.</summary>
    public IReadOnlyDictionary<string, PartyEntry> Parties { get; }

    /// <summary>Sources by key.</summary>
    public IReadOnlyDictionary<string, SourceEntry> Sources { get; }

    /// <summary>Visual classes by id, in the file's order.</summary>
    public IReadOnlyDictionary<string, VisualClassEntry> VisualClasses { get; }

    /// <summary>Deciding evidence of look-alike pairs.</summary>
    public IReadOnlyList<DeciderEntry> Deciders { get; }

    /// <summary>Statements that cannot both be right.</summary>
    public IReadOnlyList<Contradiction> Contradictions { get; }

    /// <summary>How evidence is weighed.</summary>
    public RankingRules Ranking { get; }

    /// <summary>Timing rules by claim class.</summary>
    public IReadOnlyDictionary<string, TimingRule> Timing { get; }

    /// <summary>General cautions.</summary>
    public IReadOnlyList<GeneralCaution> Cautions { get; }

    /// <summary>Care card.</summary>
    public CareCard Care { get; }

    /// <summary>Film map and film budget.</summary>
    public FilmRules Film { get; }

    /// <summary>What kinds of finish and panel change.</summary>
    public IReadOnlyList<FinishRule> Finishes { get; }

    /// <summary>Waits of a young finish.</summary>
    public IReadOnlyList<WaitRule> Waits { get; }

    /// <summary>What to ask on a claim.</summary>
    public ClaimRules Claim { get; }

    /// <summary>Work for licensed or qualified hands.</summary>
    public IReadOnlyList<HandOverRule> HandOvers { get; }

    /// <summary>When and how to spray.</summary>
    public SprayRules SprayDay { get; }

    internal IReadOnlyDictionary<string, ConditionEntry> ById { get; }

    internal VisualTable SeenUnder { get; }

    internal WeightTable Weights { get; }

    internal TrialTable Trials { get; }

    internal OutcomeTable Outcomes { get; }

    internal LookAlikePairs LookAlikes { get; }

    /// <summary>Reads and checks a knowledge folder.</summary>
    /// <param name="folder">Folder with <c>manifest.yaml</c>, <c>conditions/</c> and <c>schema/</c>.</param>
    /// <exception cref="InvalidDataException">A file is missing, broken, against its schema, or names an unknown id;
    /// the message is one sentence that names the file.</exception>
    public static KnowledgeBase Load(string folder)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        return new(new KnowledgeFolder(folder));
    }

    /// <summary>Finds a condition.</summary>
    /// <param name="id">Its id.</param>
    /// <exception cref="CoatScanException">There is none of this id (<see cref="ErrorReason.ConditionNotFound"/>).</exception>
    public ConditionEntry Condition(string id)
    {
        if (ById.TryGetValue(id, out ConditionEntry? entry))
        {
            return entry;
        }

        string shown = Quoted.Short(id);
        throw new CoatScanException(
            ErrorReason.ConditionNotFound,
            $"There is no condition '{shown}'.{Nearest.Hint(id, ById.Keys)}",
            "condition",
            new Dictionary<string, string> { ["condition"] = shown });
    }

    /// <summary>How likely a visual class is to be seen under a condition, trade judgment.</summary>
    /// <param name="visualClass">Id of a class that is seen on a panel.</param>
    /// <param name="condition">Id of a condition.</param>
    /// <returns>P(class | condition), (0, 1); sums to 1 over the panel classes.</returns>
    /// <exception cref="KeyNotFoundException">Unknown condition or no panel class.</exception>
    public double ChanceToSee(string visualClass, string condition) => SeenUnder[condition, visualClass];

    private static Dictionary<string, T> Keyed<T>(KnowledgeFolder folder, string name, Func<T, string, T> named) =>
        folder.Read<Dictionary<string, T>>(name, name)
            .ToDictionary(p => p.Key, p => named(p.Value, p.Key), StringComparer.Ordinal);

    private sealed record Manifest(string Version, string Status);

    private sealed record ContradictionFile(Dictionary<string, string> Doubts, List<Contradiction> Pairs);

    private sealed record VisualClassFile(
        Dictionary<string, VisualClassEntry> Classes,
        Dictionary<string, Dictionary<string, double>> Table);
}
