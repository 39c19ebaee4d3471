using CoatScan.Imaging.Color;
using CoatScan.Metrics;

namespace CoatScan.Imaging.Cards;

/// <summary>Lays a known code over the photo so that its edges meet those in the photo, to a fraction of a pixel.</summary>
/// <remarks>
/// <para>Every border between a dark and a light module, several hundred, is measured across, and all together give the homography by
/// least squares. Ink that spreads and blur move opposite edges opposite ways and cancel.</para>
/// <para>Light is linear, so that an edge lies where half of the light has changed.</para>
/// <para>Deterministic.</para>
/// </remarks>
internal sealed class CodeFit
{
    private const int Rounds = 5;
    private const int ProfileSamples = 11;

    // Borders further off than this do not count: first while the map is rough, then when it fits. No source.
    private const double RoughOutlierModules = 0.35;
    private const double FineOutlierModules = 0.2;
    private const int RoughRounds = 2;

    // Share of borders that must show, each light side lighter than its dark side; a code that was merely read by error correction
    // may miss a quarter of its modules. No source.
    private const double MinShownShare = 0.7;

    // Of the borders that show: how many must lie where the map puts them. No source.
    private const double MinFitShare = 0.7;

    // Smallest share by which the light side must exceed the dark side, of their sum. No source.
    private const double MinContrast = 0.15;

    private readonly Plane _light;
    private readonly CardCode _code;
    private readonly double _middle;

    private CodeFit(Plane light, CardCode code)
    {
        _light = light;
        _code = code;
        _middle = code.Side / 2.0;
    }

    /// <summary>Where the code is; null if it is not there.</summary>
    public static CodePlace? Fit(Plane light, CardCode code, CodeSighting sighting)
    {
        var fit = new CodeFit(light, code);
        Matrix3 map = sighting.Map;
        CodePlace? place = null;
        for (int round = 0; round < Rounds; round++)
        {
            place = fit.Refine(map, round < RoughRounds ? RoughOutlierModules : FineOutlierModules);
            if (place is null)
            {
                return null;
            }

            map = place.FromModules;
        }

        return place;
    }

    private CodePlace? Refine(in Matrix3 map, double outlierModules)
    {
        // Both sides are brought near [-1, 1], with the code's middle in the middle.
        var (centerX, centerY) = PlaneMapping.Map(map, _middle, _middle);
        var (longest, _) = PlaneMapping.Stretch(map, _middle, _middle);
        double size = longest * _middle;
        var fit = new MappingFit();
        int borders = 0;
        int shown = 0;
        int used = 0;
        for (int line = 0; line <= _code.Side; line++)
        {
            for (int along = 0; along < _code.Side; along++)
            {
                if (_code.IsDark(line - 1, along) != _code.IsDark(line, along))
                {
                    borders++;
                    if (Measure(map, line, along + 0.5, isUpright: true, _code.IsDark(line, along)) is { } edge)
                    {
                        shown++;
                        if (Math.Abs(edge.Offset) <= outlierModules)
                        {
                            used++;
                            fit.AddX((edge.X - centerX) / size, (edge.Y - centerY) / size, (line / _middle) - 1);
                        }
                    }
                }

                if (_code.IsDark(along, line - 1) != _code.IsDark(along, line))
                {
                    borders++;
                    if (Measure(map, line, along + 0.5, isUpright: false, _code.IsDark(along, line)) is { } edge)
                    {
                        shown++;
                        if (Math.Abs(edge.Offset) <= outlierModules)
                        {
                            used++;
                            fit.AddY((edge.X - centerX) / size, (edge.Y - centerY) / size, (line / _middle) - 1);
                        }
                    }
                }
            }
        }

        if (shown < MinShownShare * borders || used < MinFitShare * shown || fit.Solve() is not { } solved)
        {
            return null;
        }

        var fromPx = new Matrix3(1 / size, 0, -centerX / size, 0, 1 / size, -centerY / size, 0, 0, 1);
        var toModules = new Matrix3(_middle, 0, _middle, 0, _middle, _middle, 0, 0, 1);
        Matrix3 back = (toModules * solved.Map * fromPx).Invert();
        return double.IsFinite(back.M11) ? new CodePlace(back, solved.Map, solved.Covariance, (centerX, centerY), size, _middle) : null;
    }

    // Half a module to each side of a border: where the light has changed by half, as the mean of the profile tells, which uses every
    // sample and needs no model of the blur.
    private (double X, double Y, double Offset)? Measure(in Matrix3 map, int line, double along, bool isUpright, bool isDarkBeyond)
    {
        Span<double> profile = stackalloc double[ProfileSamples];
        profile.Clear();
        for (int lane = -1; lane <= 1; lane++)
        {
            for (int i = 0; i < ProfileSamples; i++)
            {
                double across = line - 0.5 + (i / (ProfileSamples - 1.0));
                double beside = along + (0.25 * lane);
                var (x, y) = isUpright ? PlaneMapping.Map(map, across, beside) : PlaneMapping.Map(map, beside, across);
                if (!TrySample(x, y, out double value))
                {
                    return null;
                }

                profile[i] += value;
            }
        }

        double before = (profile[0] + profile[1]) / 2;
        double beyond = (profile[^1] + profile[^2]) / 2;
        double rise = isDarkBeyond ? before - beyond : beyond - before;
        if (!(rise > MinContrast * (before + beyond)))
        {
            return null;
        }

        double sum = -(profile[0] + profile[^1]) / 2;
        foreach (double value in profile)
        {
            sum += value;
        }

        double offset = 0.5 - (((sum / (ProfileSamples - 1)) - before) / (beyond - before));
        var (edgeX, edgeY) = isUpright
            ? PlaneMapping.Map(map, line + offset, along)
            : PlaneMapping.Map(map, along, line + offset);
        return (edgeX, edgeY, offset);
    }

    // Between the four nearest pixels; a pixel's value stands at its middle.
    private bool TrySample(double x, double y, out double value)
    {
        x -= 0.5;
        y -= 0.5;
        int column = (int)Math.Floor(x);
        int row = (int)Math.Floor(y);
        if (!(column >= 0 && row >= 0 && column < _light.Width - 1 && row < _light.Height - 1))
        {
            value = 0;
            return false;
        }

        double right = x - column;
        double below = y - row;
        int at = (row * _light.Width) + column;
        float[] values = _light.Values;
        value = ((1 - below) * (((1 - right) * values[at]) + (right * values[at + 1])))
            + (below * (((1 - right) * values[at + _light.Width]) + (right * values[at + _light.Width + 1])));
        return true;
    }
}
