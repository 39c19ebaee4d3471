using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.Advanced;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging.Children;

/// <summary>One child process, from its start to its end.</summary>
internal sealed class ChildDecoder : IDisposable
{
    private readonly Process _process;

    public ChildDecoder(ChildDecoderSettings settings)
    {
        var start = new ProcessStartInfo(settings.Command[0], settings.Command.Skip(1))
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        start.Environment[DecodeWorker.MemoryVariable] = settings.MemoryMb.ToString(CultureInfo.InvariantCulture);
        start.Environment[DecodeWorker.CpuVariable] = settings.CpuSeconds.ToString(CultureInfo.InvariantCulture);
        try
        {
            _process = Process.Start(start)!;
        }
        catch (Win32Exception e)
        {
            throw new IOException($"{settings.Command[0]} does not start.", e);
        }
    }

    /// <summary>Asks the child.</summary>
    /// <exception cref="IOException">It ended.</exception>
    public (DecodeOutcome Outcome, Image<Rgb24>? Image) Decode(DecodeRequest request, ReadOnlySpan<byte> still)
    {
        Span<byte> head = stackalloc byte[DecodeRequest.HeadBytes];
        request.Write(head);
        var input = _process.StandardInput.BaseStream;
        input.Write(head);
        input.Write(still);
        input.Flush();

        var output = _process.StandardOutput.BaseStream;
        var outcome = output.ReadByte();
        if (outcome < 0)
        {
            throw new EndOfStreamException();
        }

        return (DecodeOutcome)outcome == DecodeOutcome.Decoded
            ? (DecodeOutcome.Decoded, ReadImage(request, output))
            : ((DecodeOutcome)outcome, null);
    }

    /// <summary>Ends the child, whatever it does.</summary>
    public void Kill()
    {
        try
        {
            _process.Kill();
        }
        catch (Exception e) when (e is InvalidOperationException or Win32Exception)
        {
            // It has ended by itself.
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Kill();
        _process.Dispose();
    }

    private static Image<Rgb24> ReadImage(DecodeRequest request, Stream output)
    {
        var image = new Image<Rgb24>(DecoderConfiguration.Instance, request.WidthPx, request.HeightPx);
        try
        {
            for (var y = 0; y < image.Height; y++)
            {
                output.ReadExactly(MemoryMarshal.AsBytes(image.DangerousGetPixelRowMemory(y).Span));
            }

            return image;
        }
        catch
        {
            image.Dispose();
            throw;
        }
    }
}
