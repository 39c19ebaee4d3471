using CoatScan.Findings;
using CoatScan.Training.Evaluation;

namespace CoatScan.Training.Learning;

/// <summary>Labelled photos from a folder: to evaluate on, or a shop's own to learn from.</summary>
internal static class LabelledPhotos
{
    /// <param name="photoFolder">Folder that the file names of the labels are relative to.</param>
    /// <param name="labelFile">Comma-separated, with the columns file, label, group in any order.</param>
    /// <param name="labels">Which visual classes answer to the labels.</param>
    /// <param name="sampler">Looks at the photos.</param>
    /// <param name="log">Names photos that are refused.</param>
    /// <exception cref="InvalidDataException">
    /// The label file or a column of it is missing, a line is short, a photo is missing, a label is no visual class, or no photo is left.
    /// </exception>
    public static IReadOnlyList<Sample> Read(
        string photoFolder,
        string labelFile,
        LabelMap labels,
        PhotoSampler sampler,
        TextWriter log)
    {
        if (!File.Exists(labelFile))
        {
            throw new InvalidDataException($"The label file '{labelFile}' is missing.");
        }

        var lines = File.ReadAllLines(labelFile);
        var header = lines is [var first, ..] ? first.Split(',') : [];
        var (file, label, group) = (Column(header, "file"), Column(header, "label"), Column(header, "group"));
        var samples = new List<Sample>();
        foreach (var line in lines.Skip(1).Where(line => line.Length > 0))
        {
            // Only the last column may be quoted text, so the first ones split at commas.
            var cells = line.Split(',');
            if (cells.Length <= Math.Max(file, Math.Max(label, group)))
            {
                throw new InvalidDataException($"The line '{line}' of '{labelFile}' has too few columns.");
            }

            var index = labels.IndexOf(cells[label]);
            if (index < 0)
            {
                throw new InvalidDataException($"The label '{cells[label]}' of '{cells[file]}' is no visual class.");
            }

            var path = Path.Combine(photoFolder, cells[file]);
            if (!File.Exists(path))
            {
                throw new InvalidDataException($"The photo '{path}' is missing.");
            }

            try
            {
                var (features, measured) = sampler.Look(File.ReadAllBytes(path), measure: true);
                samples.Add(new Sample
                {
                    ClassIndex = index,
                    Group = cells[group],
                    Features = features,
                    Measured = measured,
                    CellLabels = [],
                });
            }
            catch (CoatScanException refusal)
            {
                log.WriteLine($"{cells[file]}: refused, {refusal.Message}");
            }
        }

        return samples.Count > 0
            ? samples
            : throw new InvalidDataException($"No photo of '{labelFile}' could be used.");
    }

    private static int Column(string[] header, string name)
    {
        var index = Array.IndexOf(header, name);
        return index >= 0 ? index : throw new InvalidDataException($"The label file has no column '{name}'.");
    }
}
