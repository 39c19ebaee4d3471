namespace CoatScan.Classification;

/// <summary>
/// What the network says about each cell of a grid laid over the picture. Cells are equal shares of the picture's width
/// and height.
/// </summary>
internal sealed class CellMap
{
    /// <summary>Cells a row, and rows.</summary>
    public const int Side = 14;

    /// <summary>Number of cells.</summary>
    public const int Count = Side * Side;

    /// <summary>Number of visual classes.</summary>
    public const int Classes = 25;

    /// <summary>Values of a map: one a class and cell, class by class.</summary>
    public const int Length = Classes * Count;

    // A fault of some size fills a few cells; their mean is steadier than the single strongest one.
    private const int PeakCells = 4;

    // What fills less of a picture than this is hard to see in it at all; a scratch or a few nibs fill no more.
    private const int SpeakingCells = Count / 20;

    private const float LeastShare = 1e-4f;

    private readonly float[] _shares;

    private CellMap(float[] shares) => _shares = shares;

    /// <param name="logits">Output of the network, class by class.</param>
    public static CellMap Of(ReadOnlySpan<float> logits)
    {
        var shares = new float[Length];
        for (var cell = 0; cell < Count; cell++)
        {
            var most = float.NegativeInfinity;
            for (var c = 0; c < Classes; c++)
            {
                most = MathF.Max(most, logits[(c * Count) + cell]);
            }

            var sum = 0f;
            for (var c = 0; c < Classes; c++)
            {
                sum += shares[(c * Count) + cell] = MathF.Exp(logits[(c * Count) + cell] - most);
            }

            for (var c = 0; c < Classes; c++)
            {
                shares[(c * Count) + cell] /= sum;
            }
        }

        return new CellMap(shares);
    }

    /// <summary>Share of the class against sound paint in one cell, [0, 1].</summary>
    public double Against(int classIndex, int cell)
    {
        var own = _shares[(classIndex * Count) + cell];
        var sum = own + _shares[(VisualClasses.IndexOf(VisualClasses.Sound) * Count) + cell];
        return sum > 0 ? own / sum : 0;
    }

    /// <summary>Share of a class in one cell, [0, 1]; the shares of a cell sum to 1.</summary>
    public double Share(int classIndex, int cell) => _shares[(classIndex * Count) + cell];

    /// <summary>The fault that one cell shows most of; sound paint and other things are no faults.</summary>
    public int Leading(int cell)
    {
        var leading = -1;
        for (var c = 0; c < Classes; c++)
        {
            if (VisualClasses.IsFault(c) && (leading < 0 || Share(c, cell) > Share(leading, cell)))
            {
                leading = c;
            }
        }

        return leading;
    }

    /// <summary>Fills <paramref name="cells"/> with the cells that show a class most, the strongest first.</summary>
    public void Best(int classIndex, Span<int> cells)
    {
        cells.Fill(-1);
        for (var cell = 0; cell < Count; cell++)
        {
            var at = cells.Length;
            while (at > 0 && (cells[at - 1] < 0 || Share(classIndex, cell) > Share(classIndex, cells[at - 1])))
            {
                at--;
            }

            if (at < cells.Length)
            {
                cells[at..^1].CopyTo(cells[(at + 1)..]);
                cells[at] = cell;
            }
        }
    }

    /// <summary>For each class the logarithm of its mean share over the few cells that show it most.</summary>
    public float[] LogPeaks() => LogMeans(PeakCells);

    /// <summary>
    /// What the cells together say about the picture, as logarithms: for each class its mean share over the twentieth of the cells that shows it
    /// most, and for sound paint what the strongest of the others leaves.
    /// </summary>
    public float[] LogShares()
    {
        var shares = LogMeans(SpeakingCells);
        var sound = VisualClasses.IndexOf(VisualClasses.Sound);
        var strongest = float.NegativeInfinity;
        for (var c = 0; c < Classes; c++)
        {
            strongest = c == sound ? strongest : MathF.Max(strongest, shares[c]);
        }

        shares[sound] = MathF.Log(MathF.Max(LeastShare, 1f - MathF.Exp(strongest)));
        return shares;
    }

    private float[] LogMeans(int cells)
    {
        var means = new float[Classes];
        var row = new float[Count];
        for (var c = 0; c < Classes; c++)
        {
            _shares.AsSpan(c * Count, Count).CopyTo(row);
            Array.Sort(row);
            var sum = 0f;
            for (var i = Count - cells; i < Count; i++)
            {
                sum += row[i];
            }

            means[c] = MathF.Log(MathF.Max(LeastShare, sum / cells));
        }

        return means;
    }
}
