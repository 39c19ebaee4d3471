namespace CoatScan.DemoPanels.Surface;

/// <summary>Where film tends to fail first on this panel: fasteners, seams, edges. Pixels, only points inside the picture.</summary>
internal sealed class AnchorPoints(int width, int height)
{
    private readonly List<(float X, float Y)> _points = [];

    public bool IsEmpty => _points.Count == 0;

    public void Add(float x, float y)
    {
        if (x >= 0f && y >= 0f && x < width && y < height)
        {
            _points.Add((x, y));
        }
    }

    /// <summary>One of the points, or null if there is none.</summary>
    public (float X, float Y)? Pick(PanelRandom random) =>
        _points.Count == 0 ? null : _points[random.Whole(0, _points.Count)];
}
