using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Formats.Jpeg;
using SixLabors.ImageSharp.Formats.Png;
using SixLabors.ImageSharp.Memory;

namespace CoatScan.Imaging;

/// <summary>The image library's configuration of our own: JPEG and PNG only, one thread, bounded memory.</summary>
internal static class DecoderConfiguration
{
    /// <summary>Largest single buffer of the image library, mebibytes.</summary>
    public const int AllocationLimitMegabytes = 256;

    /// <summary>Most memory the image library keeps for the next photo, mebibytes.</summary>
    public const int PoolLimitMegabytes = 64;

    /// <summary>The one instance: a configuration owns its memory pool, so a second one would double the pool.</summary>
    public static Configuration Instance { get; } = Create();

    private static Configuration Create() => new(new JpegConfigurationModule(), new PngConfigurationModule())
    {
        MaxDegreeOfParallelism = 1,
        MemoryAllocator = MemoryAllocator.Create(new MemoryAllocatorOptions
        {
            AllocationLimitMegabytes = AllocationLimitMegabytes,
            MaximumPoolSizeMegabytes = PoolLimitMegabytes,
        }),
    };
}
