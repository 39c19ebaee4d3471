using System.Globalization;
using System.Runtime.InteropServices;
using CoatScan.Findings;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Advanced;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging.Children;

/// <summary>The work of a child process: limits itself, then decodes one photo after the other until nobody asks any more.</summary>
public static class DecodeWorker
{
    /// <summary>Environment variable with the most memory, megabytes.</summary>
    internal const string MemoryVariable = "COATSCAN_DECODER_MEMORY_MB";

    /// <summary>Environment variable with the most processor time of one photo, seconds.</summary>
    internal const string CpuVariable = "COATSCAN_DECODER_CPU_SECONDS";

    /// <summary>Serves requests until the input ends.</summary>
    /// <param name="input">Requests.</param>
    /// <param name="output">Answers.</param>
    public static void Run(Stream input, Stream output)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(output);
        ProcessLimits.LimitMemory(Number(MemoryVariable, otherwise: 1024));
        var cpuSeconds = Number(CpuVariable, otherwise: 30);
        var head = new byte[DecodeRequest.HeadBytes];
        while (input.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) == head.Length)
        {
            ProcessLimits.LimitCpu(cpuSeconds);
            var request = DecodeRequest.Read(head);
            var photo = new byte[request.LengthBytes];
            input.ReadExactly(photo);
            Answer(request, photo, output);
            output.Flush();
        }
    }

    private static void Answer(DecodeRequest request, byte[] photo, Stream output)
    {
        var (outcome, image) = Decode(request, photo);
        using (image)
        {
            output.WriteByte((byte)outcome);
            for (var y = 0; y < image?.Height; y++)
            {
                output.Write(MemoryMarshal.AsBytes(image.DangerousGetPixelRowMemory(y).Span));
            }
        }
    }

    private static (DecodeOutcome Outcome, Image<Rgb24>? Image) Decode(DecodeRequest request, byte[] photo)
    {
        try
        {
            PixelDecoder.Identify(photo, request.IsPng, request.WidthPx, request.HeightPx, CancellationToken.None);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return (e is CoatScanException ? DecodeOutcome.OtherSize : DecodeOutcome.Damaged, null);
        }

        try
        {
            return (DecodeOutcome.Decoded, PixelDecoder.Decode(photo, request.IsPng, request.HasAlpha, CancellationToken.None));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // As in the guard of the decoder: the image library throws exceptions of many kinds at damaged files.
            return (e is CoatScanException ? DecodeOutcome.Transparent : DecodeOutcome.Damaged, null);
        }
    }

    private static int Number(string variable, int otherwise) =>
        int.TryParse(Environment.GetEnvironmentVariable(variable), CultureInfo.InvariantCulture, out var value) && value > 0 ? value : otherwise;
}
