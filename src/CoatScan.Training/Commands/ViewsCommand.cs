using System.Diagnostics;
using System.Globalization;
using CoatScan.Classification;
using CoatScan.Imaging;
using CoatScan.Training.Rendering;

namespace CoatScan.Training.Commands;

/// <summary>
/// Writes what the network looks at, the larger picture, for learning the network on another machine: views.bin (8-bit pictures, red, green, blue), masks.bin
/// (share of the fault in every cell, 8 bit), index.csv (class and seed, in the order of the pictures); of panels with two faults also
/// seconds.bin (masks of the second) and a third column (its class).
/// </summary>
internal static class ViewsCommand
{
    // Finer than the network's own cells, so that the learner may turn and zoom the mask with the picture.
    private const int MaskSide = 56;

    // Small, so that a process of one core ends soon after its minutes and a learner may read what is written so far.
    private const int Chunk = 64;

    private static readonly PhotoNormalizer Normalizer =
        new(new GuardedPhotoDecoder(new ImagingOptions()), new ImagingOptions());

    public static void Run(string[] words, TextWriter output)
    {
        var arguments = new Arguments(
            words, ["out", "seed", "per-class", "harsh", "minutes", "more-sound", "two-faults", "photos", "labels", "map"]);
        var folder = arguments.Required("out");
        Directory.CreateDirectory(folder);
        using var views = File.Create(Path.Combine(folder, "views.bin"));
        using var masks = File.Create(Path.Combine(folder, "masks.bin"));
        using var index = new StreamWriter(Path.Combine(folder, "index.csv"));
        if (arguments.Optional("photos") is { } photos)
        {
            WritePhotos(photos, arguments.Required("labels"), arguments.Map("map"), views, masks, index);
            return;
        }

        var set = new RenderedSet(
            "views",
            arguments.Whole("seed", 1_000_001),
            arguments.Whole("per-class", 100),
            arguments.Whole("harsh", 0) != 0,
            arguments.Whole("more-sound", 0))
        {
            TwoFaults = arguments.Whole("two-faults", 0) != 0,
        };
        using var seconds = set.TwoFaults ? File.Create(Path.Combine(folder, "seconds.bin")) : null;
        var minutes = arguments.Whole("minutes", 600);
        var watch = Stopwatch.StartNew();
        var total = set.Count;
        for (var from = 0; from < total && watch.Elapsed.TotalMinutes < minutes; from += Chunk)
        {
            WriteChunk(set, from, Math.Min(Chunk, total - from), views, masks, seconds, index);
            output.WriteLine($"{Math.Min(total, from + Chunk)} of {total}");
        }
    }

    private static void WriteChunk(
        RenderedSet set, int from, int count, Stream views, Stream masks, Stream? seconds, StreamWriter index)
    {
        var secondShares = new byte[count][];
        var pictures = new byte[count][];
        var shares = new byte[count][];
        Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
        {
            var item = set.Item(from + i);
            var panel = RenderedPhotos.Panel(item.Kind, item.Seed, secondClass: item.SecondKind);
            var jpeg = RenderedPhotos.Jpeg(panel, item.Seed, set.Harsh || (from + i) % 3 == 0);
            pictures[i] = Colors(NetworkView.Of(Normalizer.Normalize(jpeg, null, CancellationToken.None).Planes, NetworkView.SidePx));
            shares[i] = Shares(panel.Mask, panel.WidthPx, panel.HeightPx);
            secondShares[i] = set.TwoFaults ? Shares(panel.SecondMask, panel.WidthPx, panel.HeightPx) : [];
        });
        for (var i = 0; i < count; i++)
        {
            views.Write(pictures[i]);
            masks.Write(shares[i]);
            seconds?.Write(secondShares[i]);
            var item = set.Item(from + i);
            var second = item.SecondKind is { } kind ? $",{kind}" : "";
            index.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{item.Kind},{item.Seed}{second}"));
        }

        // The index last: a row in it means that its picture and mask are there.
        views.Flush();
        masks.Flush();
        seconds?.Flush();
        index.Flush();
    }

    private static void WritePhotos(
        string folder, string labels, Dictionary<string, string> map, Stream views, Stream masks, StreamWriter index)
    {
        foreach (var line in File.ReadLines(labels).Skip(1))
        {
            var cells = line.Split(',');
            var planes = Normalizer.Normalize(
                File.ReadAllBytes(Path.Combine(folder, cells[0])), null, CancellationToken.None).Planes;
            views.Write(Colors(NetworkView.Of(planes, NetworkView.SidePx)));
            masks.Write(new byte[MaskSide * MaskSide]);
            index.WriteLine($"{map.GetValueOrDefault(cells[1], cells[1])},{cells[2]}");
        }
    }

    // Red, green, blue; the fourth byte of a pixel is the same everywhere.
    private static byte[] Colors(byte[] pixels)
    {
        var colors = new byte[pixels.Length / NetworkView.PixelBytes * 3];
        for (var i = 0; i < colors.Length; i++)
        {
            colors[i] = pixels[(i / 3 * NetworkView.PixelBytes) + (i % 3)];
        }

        return colors;
    }

    private static byte[] Shares(bool[] mask, int widthPx, int heightPx)
    {
        var marked = new int[MaskSide * MaskSide];
        var all = new int[MaskSide * MaskSide];
        for (var y = 0; y < heightPx; y++)
        {
            var row = y * MaskSide / heightPx * MaskSide;
            for (var x = 0; x < widthPx; x++)
            {
                var cell = row + (x * MaskSide / widthPx);
                all[cell]++;
                marked[cell] += mask[(y * widthPx) + x] ? 1 : 0;
            }
        }

        return [.. marked.Select((count, cell) => (byte)Math.Ceiling(255.0 * count / all[cell]))];
    }
}
