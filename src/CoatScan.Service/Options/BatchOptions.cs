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

    /// <summary>Items worked on at a time, at least 1.</summary>
    internal int EffectiveWorkers => Workers > 0 ? Workers : Math.Max(1, Environment.ProcessorCount - 1);
}
