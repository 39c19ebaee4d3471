namespace CoatScan.ArchitectureTests;

/// <summary>One project under src.</summary>
/// <param name="Name">Its name without the leading <c>CoatScan.</c>.</param>
/// <param name="References">The projects that its project file may reference.</param>
internal sealed record ProjectRow(string Name, string[] References)
{
    /// <summary>Projects whose types it may use although it gets them by way of another.</summary>
    public string[] AlsoKnows { get; init; } = [];

    /// <summary>Name of its assembly.</summary>
    public string AssemblyName => Name switch
    {
        "Cli" => "coatscan",
        "Training" => "coatscan-train",
        _ => "CoatScan." + Name,
    };

    /// <summary>Whether its types may use those of another project.</summary>
    public bool MayKnow(string other) => other == Name || References.Contains(other) || AlsoKnows.Contains(other);
}
