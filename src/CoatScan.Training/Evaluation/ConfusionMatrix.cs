namespace CoatScan.Training.Evaluation;

/// <summary>Counts of true class (row) against predicted class (column), and the scores that follow from them.</summary>
internal sealed class ConfusionMatrix
{
    private readonly int[,] _counts;

    public ConfusionMatrix(int classes) => _counts = new int[classes, classes];

    public ConfusionMatrix(int[,] counts) => _counts = (int[,])counts.Clone();

    public int Classes => _counts.GetLength(0);

    public int this[int truth, int predicted] => _counts[truth, predicted];

    public void Add(int truth, int predicted) => _counts[truth, predicted]++;

    public int RowSum(int truth) => Enumerable.Range(0, Classes).Sum(column => _counts[truth, column]);

    public int ColumnSum(int predicted) => Enumerable.Range(0, Classes).Sum(row => _counts[row, predicted]);

    /// <summary>Right among those called so; null when none was.</summary>
    public double? Precision(int index) => Ratio(_counts[index, index], ColumnSum(index));

    /// <summary>Found among those that are so; null when none is.</summary>
    public double? Recall(int index) => Ratio(_counts[index, index], RowSum(index));

    /// <summary>2 TP / (2 TP + FP + FN), [0, 1]; null when the class neither occurs nor is called.</summary>
    public double? F1(int index) => Ratio(2 * _counts[index, index], RowSum(index) + ColumnSum(index));

    /// <summary>Mean F1 over the given classes that occur; a class that is never right counts 0.</summary>
    public double MacroF1(IEnumerable<int> classes) =>
        classes.Where(index => RowSum(index) > 0).Select(index => F1(index) ?? 0).Average();

    /// <summary>Right among all.</summary>
    public double Accuracy()
    {
        var total = Enumerable.Range(0, Classes).Sum(RowSum);
        return Enumerable.Range(0, Classes).Sum(index => _counts[index, index]) / (double)total;
    }

    private static double? Ratio(int part, int whole) => whole == 0 ? null : part / (double)whole;
}
