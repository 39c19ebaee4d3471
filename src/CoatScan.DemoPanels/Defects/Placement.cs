using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Defects;

/// <summary>How single marks lie on a panel: scattered, in a heap, or along a line.</summary>
internal sealed class Placement
{
    private readonly PanelRandom _random;
    private readonly float _width;
    private readonly float _height;
    private readonly int _kind;
    private readonly float _centerX;
    private readonly float _centerY;
    private readonly float _spread;
    private readonly float _angle;
    private readonly AnchorPoints? _anchors;
    private bool _first = true;

    /// <param name="random">Source of the layout.</param>
    /// <param name="width">Width of the picture, pixels.</param>
    /// <param name="height">Height of the picture, pixels.</param>
    /// <param name="anchors">Where film fails first, for faults that start there; null for those that do not.</param>
    public Placement(PanelRandom random, int width, int height, AnchorPoints? anchors = null)
    {
        _random = random;
        _width = width;
        _height = height;
        _kind = random.Weighted(0.45f, 0.4f, 0.15f);
        var start = random.Chance(0.45f) ? anchors?.Pick(random) : null;
        _anchors = start is null ? null : anchors;
        _centerX = start?.X ?? (random.Uniform(0.15f, 0.85f) * width);
        _centerY = start?.Y ?? (random.Uniform(0.15f, 0.85f) * height);
        _spread = random.LogUniform(0.06f, 0.35f) * Math.Min(width, height);
        _angle = random.Angle();
    }

    /// <summary>The next position, pixels. The first lies well inside the picture.</summary>
    public (float X, float Y) Next()
    {
        if (_first)
        {
            _first = false;
            return (_centerX, _centerY);
        }

        if (_random.Chance(0.4f) && _anchors?.Pick(_random) is { } anchor)
        {
            var near = 0.02f * Math.Min(_width, _height);
            return (anchor.X + (near * _random.Gaussian()), anchor.Y + (near * _random.Gaussian()));
        }

        switch (_kind)
        {
            case 0:
                return (_random.Uniform(-0.02f, 1.02f) * _width, _random.Uniform(-0.02f, 1.02f) * _height);
            case 1:
                return (_centerX + (_spread * _random.Gaussian()), _centerY + (_spread * _random.Gaussian()));
            default:
                var along = 2f * _spread * _random.Gaussian();
                var across = 0.25f * _spread * _random.Gaussian();
                return (
                    _centerX + (along * MathF.Cos(_angle)) - (across * MathF.Sin(_angle)),
                    _centerY + (along * MathF.Sin(_angle)) + (across * MathF.Cos(_angle)));
        }
    }
}
