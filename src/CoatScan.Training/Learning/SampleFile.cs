using System.Text;
using CoatScan.Classification;
using CoatScan.Metrics;

namespace CoatScan.Training.Learning;

/// <summary>Keeps samples between runs: rendering and looking take most of a training's time.</summary>
internal static class SampleFile
{
    private const string Magic = "CoatScan samples 5";

    /// <summary>Reads samples, or null when there is no file for this key.</summary>
    /// <param name="path">File.</param>
    /// <param name="key">Everything the samples depend on; another key means other samples.</param>
    public static IReadOnlyList<Sample>? TryRead(string path, string key)
    {
        if (!File.Exists(path))
        {
            return null;
        }

        using var reader = new BinaryReader(File.OpenRead(path), Encoding.UTF8);
        if (reader.ReadString() != Magic || reader.ReadString() != FullKey(key))
        {
            return null;
        }

        var samples = new Sample[reader.ReadInt32()];
        for (var i = 0; i < samples.Length; i++)
        {
            samples[i] = ReadSample(reader);
        }

        return samples;
    }

    public static void Write(string path, string key, IReadOnlyList<Sample> samples)
    {
        using var writer = new BinaryWriter(File.Create(path), Encoding.UTF8);
        writer.Write(Magic);
        writer.Write(FullKey(key));
        writer.Write(samples.Count);
        foreach (var sample in samples)
        {
            writer.Write(sample.ClassIndex);
            writer.Write(sample.Group);
            WriteFloats(writer, sample.Features.Mean);
            WriteFloats(writer, sample.Features.Peak);
            WriteFloats(writer, sample.Features.Answer);
            WriteFloats(writer, sample.Features.Cells);
            WriteFloats(writer, sample.Measured);
            WriteLabels(writer, sample.CellLabels);
            writer.Write(sample.SecondIndex);
            WriteLabels(writer, sample.SecondCellLabels);
        }
    }

    private static string FullKey(string key) => $"{key} metrics {MetricSet.Version}";

    private static Sample ReadSample(BinaryReader reader)
    {
        var classIndex = reader.ReadInt32();
        var group = reader.ReadString();
        var features = new PhotoFeatures
        {
            Mean = ReadFloats(reader),
            Peak = ReadFloats(reader),
            Answer = ReadFloats(reader),
            Cells = ReadFloats(reader),
        };
        var measured = ReadFloats(reader);
        return new Sample
        {
            ClassIndex = classIndex,
            Group = group,
            Features = features,
            Measured = measured,
            CellLabels = ReadLabels(reader),
            SecondIndex = reader.ReadInt32(),
            SecondCellLabels = ReadLabels(reader),
        };
    }

    private static int[] ReadLabels(BinaryReader reader)
    {
        var labels = new int[reader.ReadInt32()];
        for (var i = 0; i < labels.Length; i++)
        {
            labels[i] = reader.ReadInt32();
        }

        return labels;
    }

    private static void WriteLabels(BinaryWriter writer, int[] labels)
    {
        writer.Write(labels.Length);
        foreach (var label in labels)
        {
            writer.Write(label);
        }
    }

    private static float[] ReadFloats(BinaryReader reader)
    {
        var values = new float[reader.ReadInt32()];
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = reader.ReadSingle();
        }

        return values;
    }

    private static void WriteFloats(BinaryWriter writer, float[] values)
    {
        writer.Write(values.Length);
        foreach (var value in values)
        {
            writer.Write(value);
        }
    }
}
