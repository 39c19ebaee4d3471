namespace CoatScan.Training.Commands;

/// <summary>A folder of photos with a file of labels in it.</summary>
internal static class LabelledFolder
{
    /// <summary>Comma-separated, with the columns file, label, group in any order; files relative to the folder.</summary>
    public const string DefaultLabels = "labels.csv";
}
