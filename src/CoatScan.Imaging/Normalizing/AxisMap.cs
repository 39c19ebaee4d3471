namespace CoatScan.Imaging.Normalizing;

/// <summary>How the pixels along one axis share themselves out to fewer, larger ones.</summary>
internal sealed class AxisMap
{
    /// <summary>Lays <paramref name="target"/> equal cells over <paramref name="source"/> pixels.</summary>
    public AxisMap(int source, int target)
    {
        Target = target;
        PxPerCell = (double)source / target;
        Boundary = new int[target];
        Share = new float[target];
        for (int i = 0; i < target; i++)
        {
            double end = i == target - 1 ? source : (i + 1) * PxPerCell;

            // The pixel that holds the end of the cell; a cell that ends with a pixel takes all of it.
            int last = Math.Min((int)Math.Ceiling(end), source) - 1;
            Boundary[i] = last;
            Share[i] = (float)(end - last);
        }
    }

    /// <summary>Cells.</summary>
    public int Target { get; }

    /// <summary>Pixels per cell, at least 1.</summary>
    public double PxPerCell { get; }

    /// <summary>The last pixel of each cell.</summary>
    public int[] Boundary { get; }

    /// <summary>The part of that pixel, (0, 1], that lies in the cell; the rest lies in the next.</summary>
    public float[] Share { get; }
}
