namespace CoatScan.Diagnosis;

/// <summary>One cause of one condition.</summary>
public sealed record CauseEntry
{
    /// <summary>Id, unique inside its condition.</summary>
    public required string Id { get; init; }

    /// <summary>The cause in words.</summary>
    public required string Text { get; init; }

    /// <summary>How it makes the condition.</summary>
    public required string Mechanism { get; init; }

    /// <summary>Id of the party that answers for it.</summary>
    public required string Party { get; init; }

    /// <summary>How soon it shows: <c>at_spraying</c>, <c>hours_days</c>, <c>weeks_months</c>, <c>years</c> or
    /// <c>instant_event</c>.</summary>
    public required string Onset { get; init; }

    /// <summary>How often it is met, relative to the other causes of the condition, above 0; trade judgment.</summary>
    public required double BaseWeight { get; init; }

    /// <summary>Evidence that it lists, by class.</summary>
    public required IReadOnlyDictionary<LikelihoodClass, IReadOnlyList<string>> Evidence { get; init; }
}
