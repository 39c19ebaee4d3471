using Microsoft.ML.Data;
using Microsoft.ML.Transforms.Image;

namespace CoatScan.Classification;

/// <summary>Input row of the network's pipeline.</summary>
internal sealed class TileImage
{
    [ImageType(DeepPipeline.SidePx, DeepPipeline.SidePx)]
    public MLImage Image { get; set; } = null!;
}
