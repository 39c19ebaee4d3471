using Microsoft.ML.Data;
using Microsoft.ML.Transforms.Image;

namespace CoatScan.Classification;

/// <summary>Input row of the network's pipeline.</summary>
internal sealed class NetworkInput
{
    [ImageType(NetworkView.SidePx, NetworkView.SidePx)]
    public MLImage Image { get; set; } = null!;
}
