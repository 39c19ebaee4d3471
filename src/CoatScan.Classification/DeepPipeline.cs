using Microsoft.ML;
using Microsoft.ML.Transforms.Image;
using Microsoft.ML.Transforms.Onnx;

namespace CoatScan.Classification;

/// <summary>
/// The frozen packaged ResNet18 as an ML.NET pipeline: picture, resized, pixels in blue-green-red planes, minus the
/// mean picture, through the network to its last pooling.
/// </summary>
internal static class DeepPipeline
{
    public const int SidePx = 224;

    public const int Length = 512;

    public const string OutputColumn = "Pooling395_Output_0";

    private const string InputColumn = "Input247";

    private const string PixelColumn = "OriginalInput";

    private const string CenteredColumn = "PreprocessedInput";

    public static string NetworkPath(string baseFolder) =>
        Path.Combine(baseFolder, "DnnImageModels", "ResNet18Onnx", "ResNet18.onnx");

    public static string MeanPath(string baseFolder) =>
        Path.Combine(baseFolder, "DnnImageModels", "ResNetPrepOnnx", "ResNetPreprocess.onnx");

    public static ITransformer Build(MLContext context, string baseFolder)
    {
        var pipeline = context.Transforms
            .ResizeImages(PixelColumn, SidePx, SidePx, nameof(TileImage.Image), ImageResizingEstimator.ResizingKind.Fill)
            .Append(context.Transforms.ExtractPixels(
                PixelColumn,
                colorsToExtract: ImagePixelExtractingEstimator.ColorBits.Rgb,
                orderOfExtraction: ImagePixelExtractingEstimator.ColorsOrder.ABGR))
            .Append(Onnx(context, MeanPath(baseFolder), PixelColumn, CenteredColumn))
            .Append(context.Transforms.CopyColumns(InputColumn, CenteredColumn))
            .Append(Onnx(context, NetworkPath(baseFolder), InputColumn, OutputColumn));
        return pipeline.Fit(context.Data.LoadFromEnumerable(Array.Empty<TileImage>()));
    }

    // One thread a session: photos run side by side, and a sum split over threads could round differently.
    private static OnnxScoringEstimator Onnx(MLContext context, string file, string input, string output) =>
        context.Transforms.ApplyOnnxModel(new OnnxOptions
        {
            ModelFile = file,
            InputColumns = [input],
            OutputColumns = [output],
            IntraOpNumThreads = 1,
            InterOpNumThreads = 1,
        });
}
