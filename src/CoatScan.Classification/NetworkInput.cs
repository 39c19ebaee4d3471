using Microsoft.ML.Data;
using Microsoft.ML.Transforms.Image;

namespace CoatScan.Classification;

/// <summary>Input row of the network's pipeline.</summary>
internal sealed class NetworkInput
{
    // The size is only the usual one; the schema below says which it is.
    [ImageType(NetworkView.SidePx, NetworkView.SidePx)]
    public MLImage Image { get; set; } = null!;

    /// <summary>Says how large the pictures are.</summary>
    /// <param name="sidePx">Side of the picture, pixels.</param>
    public static SchemaDefinition Schema(int sidePx)
    {
        // As the attribute above does for its own size.
        new ImageTypeAttribute(sidePx, sidePx).Register();
        var schema = SchemaDefinition.Create(typeof(NetworkInput));
        schema[nameof(Image)].ColumnType = new ImageDataViewType(sidePx, sidePx);
        return schema;
    }
}
