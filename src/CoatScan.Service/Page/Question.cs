namespace CoatScan.Service.Page;

/// <summary>How a question is answered.</summary>
public enum AnswerKind
{
    /// <summary>By one of a few outcomes.</summary>
    Choice,

    /// <summary>By film readings.</summary>
    Film,

    /// <summary>By a gloss reading.</summary>
    Gloss,

    /// <summary>By a color difference.</summary>
    ColorDifference,
}

/// <summary>A test worth making now, with everything that it takes to make and to answer it.</summary>
/// <param name="Test">Id of the test.</param>
/// <param name="Title">Its name.</param>
/// <param name="How">How to make it.</param>
/// <param name="Reason">What it decides.</param>
public sealed record Question(string Test, string Title, string How, string Reason)
{
    /// <summary>What to watch for; empty if nothing.</summary>
    public string Caution { get; init; } = "";

    /// <summary>Whose consent it needs; empty for none.</summary>
    public string Consent { get; init; } = "";

    /// <summary>How long it takes, minutes.</summary>
    public int Minutes { get; init; }

    /// <summary>0 leaves no trace to 3 destroys.</summary>
    public int Invasiveness { get; init; }

    /// <summary>Expected gain, bits; null where it is not known.</summary>
    public double? GainBits { get; init; }

    /// <summary>How it is answered.</summary>
    public AnswerKind Kind { get; init; }

    /// <summary>Id and words of each outcome, for a choice.</summary>
    public IReadOnlyList<(string Id, string Text)> Options { get; init; } = [];

    /// <summary>Whether a further photo answers it as well.</summary>
    public bool TakesPhoto { get; init; }
}
