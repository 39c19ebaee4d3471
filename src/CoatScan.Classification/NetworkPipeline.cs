using Microsoft.ML;
using Microsoft.ML.Transforms.Image;
using Microsoft.ML.Transforms.Onnx;

namespace CoatScan.Classification;

/// <summary>The panel network as an ML.NET pipeline: picture, pixels in red-green-blue planes, through the network.</summary>
internal static class NetworkPipeline
{
    /// <summary>Length of the network's feature vectors.</summary>
    public const int FeatureLength = 512;

    public const string MeanColumn = "mean";

    public const string PeakColumn = "peak";

    public const string AnswerColumn = "photo";

    public const string CellColumn = "cells";

    private const string PixelColumn = "pixels";

    private const int Colors = 3;

    // The network halves the picture five times.
    private const int PxPerCell = 32;

    /// <param name="context">Of the classifier.</param>
    /// <param name="networkPath">File of the network, which takes pictures of any side.</param>
    /// <param name="sidePx">Side of the pictures that this pipeline takes, pixels.</param>
    public static ITransformer Build(MLContext context, string networkPath, int sidePx)
    {
        // A memory pattern keeps a second block with room for all layers of each size of picture beside the arena, and saves no time here.
        context.SetOnnxSessionOption(new OnnxSessionOptions { EnableMemoryPattern = false, InterOpNumThreads = 1, IntraOpNumThreads = 1 });
        var pipeline = context.Transforms
            .ExtractPixels(
                PixelColumn,
                nameof(NetworkInput.Image),
                colorsToExtract: ImagePixelExtractingEstimator.ColorBits.Rgb,
                orderOfExtraction: ImagePixelExtractingEstimator.ColorsOrder.ARGB)
            .Append(context.Transforms.ApplyOnnxModel(new OnnxOptions
            {
                ModelFile = networkPath,
                InputColumns = [PixelColumn],
                OutputColumns = [MeanColumn, PeakColumn, AnswerColumn, CellColumn],
                ShapeDictionary = new Dictionary<string, int[]>
                {
                    [PixelColumn] = [1, Colors, sidePx, sidePx],
                    [CellColumn] = [1, CellMap.Classes, sidePx / PxPerCell, sidePx / PxPerCell],
                },

                // One thread a session: photos run side by side, and a sum split over threads could round differently.
                IntraOpNumThreads = 1,
                InterOpNumThreads = 1,
            }));
        return pipeline.Fit(context.Data.LoadFromEnumerable(Array.Empty<NetworkInput>(), NetworkInput.Schema(sidePx)));
    }
}
