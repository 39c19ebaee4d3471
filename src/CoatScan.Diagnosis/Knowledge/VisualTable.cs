namespace CoatScan.Diagnosis;

/// <summary>P(visual class | condition), every row completed to 1 over the classes that are seen on a panel.</summary>
internal sealed class VisualTable
{
    private readonly Dictionary<string, Dictionary<string, double>> _rows = new(StringComparer.Ordinal);

    public VisualTable(IEnumerable<VisualClassEntry> classes, Dictionary<string, Dictionary<string, double>> named)
    {
        PanelClasses = [.. classes.Where(c => c.Panel).Select(c => c.Id)];
        foreach ((string condition, Dictionary<string, double> row) in named)
        {
            // What a row does not name is not impossible: labels and photos err. It shares the rest evenly.
            double leak = (1 - row.Values.Sum()) / (PanelClasses.Count - row.Count);
            _rows.Add(
                condition,
                PanelClasses.ToDictionary(c => c, c => row.GetValueOrDefault(c, leak), StringComparer.Ordinal));
        }
    }

    public IReadOnlyList<string> PanelClasses { get; }

    public double this[string condition, string visualClass] => _rows[condition][visualClass];
}
