using CoatScan.Classification;

namespace CoatScan.Training.Learning;

/// <summary>Which columns a photo model reads; the ablation compares them.</summary>
internal sealed record FeatureGroups(string Name, IReadOnlyList<string> Columns)
{
    public static FeatureGroups Hand { get; } = new("hand-made only", [nameof(PhotoRow.Hand)]);

    public static FeatureGroups Whole { get; } = new("network, whole picture", [nameof(PhotoRow.Whole)]);

    public static FeatureGroups Tiles { get; } =
        new("network, tiles", [nameof(PhotoRow.TileMean), nameof(PhotoRow.TileMax)]);

    public static FeatureGroups WholeAndTiles { get; } =
        new("network, whole picture and tiles", [nameof(PhotoRow.Whole), nameof(PhotoRow.TileMean), nameof(PhotoRow.TileMax)]);

    public static FeatureGroups All { get; } = new(
        "network, whole picture and tiles, and hand-made",
        [nameof(PhotoRow.Whole), nameof(PhotoRow.TileMean), nameof(PhotoRow.TileMax), nameof(PhotoRow.Hand)]);
}
