using CoatScan.Classification;

namespace CoatScan.Training.Evaluation;

/// <summary>
/// Which visual classes answer to the labels of a set of photos: <c>chips=chips</c>, or <c>scratches=swirl+single_scratch</c>, where an
/// answer of either class is right. A label that is not named must be a visual class itself.
/// </summary>
internal sealed class LabelMap
{
    private readonly IReadOnlyDictionary<string, string> _classesByLabel;
    private readonly int[] _representative = [.. Enumerable.Range(0, VisualClasses.All.Count)];

    /// <param name="classesByLabel">Ids joined by a plus sign, by label.</param>
    /// <exception cref="ArgumentException">An id is no visual class, or answers to two labels.</exception>
    public LabelMap(IReadOnlyDictionary<string, string> classesByLabel)
    {
        _classesByLabel = classesByLabel;
        Names = [.. VisualClasses.All];
        var taken = new HashSet<int>();
        foreach (var (label, ids) in classesByLabel)
        {
            int[] indices = [.. ids.Split('+').Select(id => Checked(label, id))];
            foreach (var index in indices)
            {
                if (!taken.Add(index))
                {
                    throw new ArgumentException($"The visual class '{VisualClasses.All[index]}' answers to more than one label.");
                }

                _representative[index] = indices[0];
            }

            Names[indices[0]] = ids;
        }
    }

    /// <summary>What each column is called, in the order of the visual classes.</summary>
    public string[] Names { get; }

    /// <summary>Column of a label, or -1.</summary>
    public int IndexOf(string label) =>
        _classesByLabel.TryGetValue(label, out var ids) ? VisualClasses.IndexOf(ids.Split('+')[0]) : VisualClasses.IndexOf(label);

    /// <summary>Classes that answer to the label of one of them; that class alone where it is a label itself.</summary>
    public IReadOnlyList<int> Together(int index) =>
        [.. Enumerable.Range(0, _representative.Length).Where(other => _representative[other] == _representative[index])];

    /// <summary>Column that counts the answers of a class.</summary>
    public int ColumnOf(int index) => _representative[index];

    /// <summary>Probabilities of classes that answer to one label, added up in the column of its first class.</summary>
    public double[] Merge(double[] probabilities)
    {
        var merged = new double[probabilities.Length];
        for (var i = 0; i < probabilities.Length; i++)
        {
            merged[_representative[i]] += probabilities[i];
        }

        return merged;
    }

    private static int Checked(string label, string id) => VisualClasses.IndexOf(id) is var index and >= 0
        ? index
        : throw new ArgumentException($"'{id}', given for the label '{label}', is no visual class.");
}
