namespace CoatScan.Findings;

/// <summary>Whether and how to spray.</summary>
public sealed record SprayPlan
{
    /// <summary>Whether to spray now.</summary>
    public required SprayVerdict Verdict { get; init; }

    /// <summary>Dew point of the air now, Celsius.</summary>
    public required double DewPointC { get; init; }

    /// <summary>Panel temperature less dew point, Celsius.</summary>
    public required double MarginC { get; init; }

    /// <summary>All limits, those that are broken first.</summary>
    public required IReadOnlyList<SprayGate> Gates { get; init; }

    /// <summary>Speed of thinner or reducer: <c>fast</c>, <c>medium</c>, <c>slow</c> or <c>extra_slow</c>.</summary>
    public required string ThinnerSpeed { get; init; }

    /// <summary>Flash between coats, minutes.</summary>
    public required SprayRange FlashMin { get; init; }

    /// <summary>Retarder, percent of the thinner's volume; null if none is needed.</summary>
    public SprayRange? RetarderPercent { get; init; }

    /// <summary>Dry film of one coat, micrometers.</summary>
    public required SprayRange CoatUm { get; init; }

    /// <summary>Recoat in words.</summary>
    public required string Recoat { get; init; }

    /// <summary>Pot life in words.</summary>
    public required string Pot { get; init; }

    /// <summary>What else to mind, one sentence each.</summary>
    public required IReadOnlyList<string> Notes { get; init; }

    /// <summary>The hours of the forecast, in order.</summary>
    public IReadOnlyList<SprayHour> Hours { get; init; } = [];

    /// <summary>First hour of the forecast at which spraying could become possible; empty if none or if it is possible now.</summary>
    public string PossibleFrom { get; init; } = "";

    /// <summary>That the product sheet wins.</summary>
    public required string ProductSheet { get; init; }

    /// <summary>Version of the knowledge base.</summary>
    public required string KnowledgeVersion { get; init; }
}
