using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>The photo's visual classes, checked, and what they say about each condition.</summary>
internal sealed class PhotoView
{
    private readonly KnowledgeBase _knowledge;
    private readonly double _lambda;
    private readonly Dictionary<string, double> _onPanel;
    private readonly Dictionary<string, double> _lift;

    /// <exception cref="ArgumentException">Unknown class, missing training share, a number outside its range.</exception>
    public PhotoView(PhotoEvidence photo, KnowledgeBase knowledge)
    {
        _knowledge = knowledge;
        _lambda = photo.Lambda;
        Familiar = photo.Familiar;
        PhotoCount = photo.PhotoCount;
        if (!(photo.Lambda is >= 0 and <= 1))
        {
            throw new ArgumentException($"Lambda {photo.Lambda} is outside [0, 1].", nameof(photo));
        }

        double total = 0;
        foreach (VisualClassShare share in photo.Shares)
        {
            if (!knowledge.VisualClasses.ContainsKey(share.VisualClass))
            {
                throw new ArgumentException($"Visual class '{share.VisualClass}' is unknown.", nameof(photo));
            }

            if (!(share.Probability is >= 0 and <= 1))
            {
                throw new ArgumentException($"Probability of '{share.VisualClass}' is outside [0, 1].", nameof(photo));
            }

            total += share.Probability;
        }

        if (Math.Abs(total - 1) > 1e-3)
        {
            throw new ArgumentException($"Probabilities sum to {total}, not to 1.", nameof(photo));
        }

        Dictionary<string, double> all = photo.Shares
            .ToDictionary(s => s.VisualClass, s => s.Probability, StringComparer.Ordinal);
        IReadOnlyList<string> panelClasses = knowledge.SeenUnder.PanelClasses;
        double panelTotal = panelClasses.Sum(c => all.GetValueOrDefault(c));
        IsPanel = panelTotal >= 0.5;
        _onPanel = panelClasses.ToDictionary(
            c => c, c => panelTotal > 0 ? all.GetValueOrDefault(c) / panelTotal : 0, StringComparer.Ordinal);
        _lift = Lift(photo, panelClasses);

        // Ties go to the earlier class of the file, so that equal input gives an equal answer.
        string[] ranked = [.. panelClasses.OrderByDescending(c => _onPanel[c])];
        Top = knowledge.VisualClasses[ranked[0]];
        TopShare = _onPanel[ranked[0]];
        Second = knowledge.VisualClasses[ranked[1]];
        SecondShare = _onPanel[ranked[1]];
    }

    /// <summary>Whether at least half of the probability lies on classes that are seen on a panel.</summary>
    public bool IsPanel { get; }

    public bool Familiar { get; }

    public int PhotoCount { get; }

    public VisualClassEntry Top { get; }

    public double TopShare { get; }

    public VisualClassEntry Second { get; }

    public double SecondShare { get; }

    /// <summary>Whether the leading class is probable and well ahead of the next.</summary>
    public bool IsClear =>
        TopShare >= _knowledge.Ranking.Photo.ClassMinShare
        && TopShare >= _knowledge.Ranking.Photo.ClassMinRatio * SecondShare;

    public EvidenceItem Item => new(
        "photo." + Top.Id, EvidenceOrigin.Photo, $"the photo shows {Top.Text} ({ShareText.Percent(TopShare)})");

    /// <summary>What the photo does to one condition.</summary>
    /// <remarks>
    /// factor = (sum over the classes c seen on a panel of P(c | condition) p(c | photo) / p(c in training)) ^ lambda.
    /// Dividing by the training share turns the classifier's posterior back into a likelihood (Bayes' rule); lambda
    /// below 1 discounts a classifier that is too sure of itself.
    /// </remarks>
    public EvidenceWeight Weigh(string condition)
    {
        double sum = 0;
        double most = -1;
        string dominant = Top.Id;
        foreach (string c in _knowledge.SeenUnder.PanelClasses)
        {
            double part = _knowledge.SeenUnder[condition, c] * _lift[c];
            sum += part;
            if (part > most)
            {
                (most, dominant) = (part, c);
            }
        }

        VisualClassEntry seen = _knowledge.VisualClasses[dominant];
        double chance = _knowledge.SeenUnder[condition, dominant];
        double weight = _lambda * Math.Log(Math.Max(sum, double.Epsilon));
        string word = weight >= 0 ? "for" : "against";
        return new(
            "photo." + dominant,
            weight,
            $"speaks {word} it: {seen.Name.ToLowerInvariant()} {ShareText.Percent(_onPanel[dominant])} in the photo, "
            + $"{ShareText.Percent(chance)} expected under this condition");
    }

    private static Dictionary<string, double> Share(
        IReadOnlyDictionary<string, double> training,
        IReadOnlyList<string> classes)
    {
        foreach (string c in classes)
        {
            if (!training.TryGetValue(c, out double share) || !(share is > 0 and <= 1))
            {
                throw new ArgumentException($"Training share of '{c}' is missing or outside (0, 1].", nameof(training));
            }
        }

        double total = classes.Sum(c => training[c]);
        return classes.ToDictionary(c => c, c => training[c] / total, StringComparer.Ordinal);
    }

    private Dictionary<string, double> Lift(PhotoEvidence photo, IReadOnlyList<string> panelClasses)
    {
        Dictionary<string, double> training = Share(photo.PriorShares, panelClasses);
        return panelClasses.ToDictionary(c => c, c => _onPanel[c] / training[c], StringComparer.Ordinal);
    }
}
