using CoatScan.Findings;

namespace CoatScan.Classification;

/// <summary>The part of the model card that programs read.</summary>
internal sealed record ModelCard
{
    /// <summary>Version of the model.</summary>
    public required string Version { get; init; }

    /// <summary>Digest of the model's parts.</summary>
    public required string Sha256 { get; init; }

    /// <summary>Digest of the panel network that the features came from.</summary>
    public required string NetworkSha256 { get; init; }

    /// <summary>Ids in the order of the model's outputs.</summary>
    public required string[] Classes { get; init; }

    /// <summary>Shares of the classes that the probabilities start from, in the same order.</summary>
    public required double[] PriorShares { get; init; }

    /// <summary>Weight of the photo's evidence in the log-odds merge.</summary>
    public required double Lambda { get; init; }

    /// <summary>How far naming each class was checked, in the order of the classes.</summary>
    public required ClassCheck[] Checks { get; init; }
}
