using System.ComponentModel.DataAnnotations;

namespace CoatScan.Service.Options;

/// <summary>How this process works on batches. Section <c>CoatScan:Batches</c>.</summary>
public sealed class BatchOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Batches";

    /// <summary>Items worked on at a time, [1, 256]; 0 means one less than the processor has cores, at least 1.</summary>
    [Range(0, 256)]
    public int Workers { get; set; }

    /// <summary>Items worked on at a time, at least 1.</summary>
    internal int EffectiveWorkers => Workers > 0 ? Workers : Math.Max(1, Environment.ProcessorCount - 1);
}
