using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>
/// Where two sheets meet, or where a pressed line runs: a straight or bent line across the picture, or the outline of a
/// cover with rounded corners. Rows of fasteners follow it.
/// </summary>
internal sealed class SeamLine
{
    private const float MostRowPoints = 160f;
    private readonly float _x0;
    private readonly float _y0;
    private readonly float _cos;
    private readonly float _sin;
    private readonly float _halfX;
    private readonly float _halfY;
    private readonly float _corner;
    private readonly float _bend;
    private readonly float _reach;

    private SeamLine(PanelContext context, float coverShare)
    {
        var random = context.Random;
        _x0 = random.Uniform(0.1f, 0.9f) * context.Width;
        _y0 = random.Uniform(0.1f, 0.9f) * context.Height;
        var angle = (random.Chance(0.6f) ? random.Whole(0, 2) * 0.5f * MathF.PI : random.Angle()) + (0.08f * random.Gaussian());
        _cos = MathF.Cos(angle);
        _sin = MathF.Sin(angle);
        IsCover = random.Chance(coverShare);
        _halfX = random.Uniform(0.15f, 0.6f) * context.Width;
        _halfY = random.Uniform(0.15f, 0.5f) * context.Height;
        _corner = MathF.Min(_halfX, _halfY) * random.Uniform(0.1f, 1f);
        _bend = random.Chance(0.5f) ? 0f : 0.5f * random.Gaussian() / context.Side;
        _reach = context.Width + context.Height;
    }

    /// <summary>Whether the line closes around a cover.</summary>
    public bool IsCover { get; }

    public static SeamLine Draw(PanelContext context, float coverShare = 0.25f) => new(context, coverShare);

    /// <summary>Signed distance to the line, pixels; negative inside a cover.</summary>
    public Plane DistancePx(int width, int height)
    {
        var distance = new Plane(width, height);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var along = ((x - _x0) * _cos) + ((y - _y0) * _sin);
                var across = ((y - _y0) * _cos) - ((x - _x0) * _sin);
                distance[x, y] = IsCover
                    ? RoundedBox(along, across, _halfX, _halfY, _corner)
                    : (across + (_bend * along * along)) / MathF.Sqrt(1f + (4f * _bend * _bend * along * along));
            }
        }

        return distance;
    }

    /// <summary>Points beside the line at one distance, a pitch apart: negative distances lie inside a cover.</summary>
    public IReadOnlyList<(float X, float Y)> Row(float distancePx, float pitchPx)
    {
        var points = new List<(float X, float Y)>();
        if (IsCover)
        {
            AddOutline(points, distancePx, pitchPx);
        }
        else
        {
            var most = MathF.Min(MostRowPoints, _reach / pitchPx);
            for (var i = -most; i <= most; i++)
            {
                var along = i * pitchPx;
                points.Add(Place(along, distancePx - (_bend * along * along)));
            }
        }

        return points;
    }

    internal static float RoundedBox(float x, float y, float halfX, float halfY, float corner)
    {
        var qx = MathF.Abs(x) - halfX + corner;
        var qy = MathF.Abs(y) - halfY + corner;
        var ox = MathF.Max(qx, 0f);
        var oy = MathF.Max(qy, 0f);
        return MathF.Sqrt((ox * ox) + (oy * oy)) + MathF.Min(0f, MathF.Max(qx, qy)) - corner;
    }

    private (float X, float Y) Place(float along, float across) =>
        (_x0 + (along * _cos) - (across * _sin), _y0 + (along * _sin) + (across * _cos));

    // Straight sides only: fasteners keep clear of tight corners, and sit on the bisector of wide ones.
    private void AddOutline(List<(float X, float Y)> points, float distancePx, float pitchPx)
    {
        var halfX = _halfX + distancePx;
        var halfY = _halfY + distancePx;
        var corner = MathF.Max(0f, _corner + distancePx);
        if (halfX < pitchPx || halfY < pitchPx)
        {
            return;
        }

        AddSide(halfX - corner, (t, sign) => Place(t, sign * halfY));
        AddSide(halfY - corner, (t, sign) => Place(sign * halfX, t));
        var bisector = corner * 0.7071f;
        foreach (var (signX, signY) in new[] { (-1f, -1f), (-1f, 1f), (1f, -1f), (1f, 1f) })
        {
            points.Add(Place(signX * (halfX - corner + bisector), signY * (halfY - corner + bisector)));
        }

        void AddSide(float half, Func<float, float, (float X, float Y)> place)
        {
            var count = (int)MathF.Min(MostRowPoints, 2f * half / pitchPx);
            for (var i = 1; i < count; i++)
            {
                var t = (2f * half * i / count) - half;
                points.Add(place(t, -1f));
                points.Add(place(t, 1f));
            }
        }
    }
}
