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

    /// <summary>Hands items out inside each process.</summary>
    public const string Channel = "Channel";

    /// <summary>Hands items out to the processes of several machines.</summary>
    public const string RabbitMq = "RabbitMq";

    /// <summary>What carries items to workers: <c>Channel</c> or <c>RabbitMq</c>, which needs section <c>CoatScan:Broker</c>.</summary>
    public string HandOut { get; set; } = Channel;

    /// <summary>Whether a broker carries items.</summary>
    internal bool UsesBroker => HandOut.Equals(RabbitMq, StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether the image library decodes photos of batches in child processes with limits of their own: a photo that ends or stalls
    /// it then costs an attempt, and nothing else.</summary>
    public bool DecodeInChildren { get; set; }

    /// <summary>Most memory of such a child, megabytes, [384, 16384].</summary>
    [Range(384, 16_384)]
    public int ChildMemoryMb { get; set; } = 1024;

    /// <summary>Most processor time that one photo may take such a child, seconds, [1, 600].</summary>
    [Range(1, 600)]
    public int ChildCpuSeconds { get; set; } = 30;

    /// <summary>Items worked on at a time, at least 1.</summary>
    internal int EffectiveWorkers => Workers > 0 ? Workers : Math.Max(1, Environment.ProcessorCount - 1);
}
