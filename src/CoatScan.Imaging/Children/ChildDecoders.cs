using System.Collections.Concurrent;
using CoatScan.Findings;
using SixLabors.ImageSharp;
using SixLabors.ImageSharp.PixelFormats;

namespace CoatScan.Imaging.Children;

/// <summary>Decodes in child processes with limits of memory and processor time: what a photo does to the image library ends a child at most.</summary>
/// <remarks>One photo at a time and child; children stay for the next photo. Thread safe.</remarks>
public sealed class ChildDecoders : IDisposable
{
    private readonly ChildDecoderSettings _settings;
    private readonly ConcurrentBag<ChildDecoder> _idle = [];

    /// <summary>Starts nothing yet.</summary>
    public ChildDecoders(ChildDecoderSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentOutOfRangeException.ThrowIfZero(settings.Command.Count, nameof(settings));
        _settings = settings;
    }

    /// <summary>Decodes one photo whose structure was checked.</summary>
    /// <exception cref="CoatScanException">The photo is refused; WORKER_LOST: the child ended over it.</exception>
    internal Image<Rgb24> Decode(DecodeRequest request, ReadOnlyMemory<byte> still, CancellationToken cancellationToken)
    {
        var child = _idle.TryTake(out var waiting) ? waiting : new ChildDecoder(_settings);
        var mayStay = false;
        try
        {
            using (cancellationToken.Register(child.Kill))
            {
                var (outcome, image) = child.Decode(request, still.Span);
                mayStay = !cancellationToken.IsCancellationRequested;
                return outcome switch
                {
                    DecodeOutcome.Decoded => image!,
                    DecodeOutcome.OtherSize => throw Refusal.Unreadable("its size is not what its structure says"),
                    DecodeOutcome.Transparent => throw Refusal.Transparent(),
                    _ => throw Refusal.Unreadable("its data is damaged"),
                };
            }
        }
        catch (IOException gone)
        {
            cancellationToken.ThrowIfCancellationRequested();
            throw new CoatScanException(
                ErrorReason.WorkerLost,
                $"The process that decoded the photo ended over it; it may take {_settings.MemoryMb} MB and {_settings.CpuSeconds} s of processor time.",
                Refusal.Field,
                new Dictionary<string, string> { ["memory_mb"] = $"{_settings.MemoryMb}", ["cpu_seconds"] = $"{_settings.CpuSeconds}" },
                gone);
        }
        finally
        {
            if (mayStay)
            {
                _idle.Add(child);
            }
            else
            {
                child.Dispose();
            }
        }
    }

    /// <summary>Ends the children that wait.</summary>
    public void Dispose()
    {
        while (_idle.TryTake(out var child))
        {
            child.Dispose();
        }
    }
}
