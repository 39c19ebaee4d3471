namespace CoatScan.Batches;

/// <summary>How one process works on batches.</summary>
/// <param name="Worker">Name of the process, different for every start of it.</param>
/// <param name="Workers">Items worked on at a time, 1 or more.</param>
public sealed record BatchEngineSettings(string Worker, int Workers)
{
    /// <summary>How long a claim holds without a sign of life.</summary>
    public TimeSpan Lease { get; init; } = TimeSpan.FromSeconds(8);

    /// <summary>How long one item may take before its attempt counts as failed.</summary>
    public TimeSpan LongestItem { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>How often to look for new work, and for claims whose lease ran out.</summary>
    public TimeSpan LookInterval { get; init; } = TimeSpan.FromMilliseconds(500);

    /// <summary>Sign of life: often enough that two may be late.</summary>
    internal TimeSpan RenewInterval => Lease / 4;
}
