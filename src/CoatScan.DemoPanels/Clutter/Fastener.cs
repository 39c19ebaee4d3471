using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>One make of rivet, screw or hole; every piece of a row is of the same make.</summary>
internal sealed class Fastener
{
    private readonly Kind _kind;
    private readonly float _depth;
    private readonly float _rise;
    private readonly float _dimple;
    private readonly float _ringShare;
    private readonly float _ringTone;
    private readonly Rgb _ringColor;
    private readonly float _stain;
    private readonly Rgb _stainColor;
    private readonly float _bare;
    private readonly Coat _metal;
    private readonly Rgb _countersink;

    private Fastener(PanelContext context, Kind kind)
    {
        var random = context.Random;
        _kind = kind;
        RadiusPx = context.SizePx(2.2f, 6f, 4.5f, kind is Kind.SlotScrew or Kind.CrossScrew ? 24f : 19f);
        _depth = random.LogUniform(0.12f, 0.7f);
        _rise = random.LogUniform(0.015f, 0.15f) * (random.Chance(0.5f) ? 1f : -1f);
        _ringShare = random.Uniform(0f, 1f);
        _ringTone = random.Chance(0.6f) ? random.Uniform(0.1f, 0.75f) : 0f;
        var paint = context.Coats.Paint.Albedo;
        _ringColor = random.Weighted(0.45f, 0.3f, 0.25f) switch
        {
            0 => paint * random.Uniform(0.1f, 0.5f),
            1 => Rgb.Mix(paint, Rgb.Gray(0.7f), random.Uniform(0.3f, 0.8f)),
            _ => Rgb.Display(0.42f, 0.3f, 0.2f) * random.Uniform(0.4f, 1.3f),
        };
        _stain = random.Chance(0.35f) ? random.Uniform(0.15f, 0.8f) : 0f;
        _stainColor = random.Chance(0.6f)
            ? Rgb.Display(0.45f, 0.31f, 0.19f) * random.Uniform(0.5f, 1.2f)
            : Rgb.Gray(random.LogUniform(0.02f, 0.12f));
        _bare = kind != Kind.FlushRivet && random.Chance(0.35f) ? random.Uniform(0.4f, 1f) : 0f;
        _metal = context.Coats.Metal;
        _countersink = random.Chance(0.5f)
            ? Rgb.Display(0.66f, 0.45f, 0.32f) * random.Uniform(0.5f, 1.1f)
            : Rgb.Mix(paint, Rgb.Gray(0.3f), 0.5f);

        // Thin sheet is drawn in around a tight screw or a punched hole.
        _dimple = random.Chance(0.35f) ? random.LogUniform(0.02f, 0.2f) * (random.Chance(0.8f) ? 1f : -1f) : 0f;
    }

    private enum Kind
    {
        FlushRivet,
        DomeRivet,
        SlotScrew,
        CrossScrew,
        Hole,
        CountersunkHole,
    }

    /// <summary>Radius of the head, pixels.</summary>
    public float RadiusPx { get; }

    public static Fastener Draw(PanelContext context) =>
        new(context, (Kind)context.Random.Weighted(4f, 1.5f, 1.2f, 1.5f, 1.2f, 1.8f));

    /// <summary>Lays one piece; each is turned, dirty and worn on its own.</summary>
    public void Lay(PanelContext context, float x, float y)
    {
        var reach = RadiusPx * (_dimple == 0f ? 2.2f : 4f);
        if (x < -reach || y < -reach || x > context.Width + reach || y > context.Height + reach)
        {
            return;
        }

        var random = context.Random;
        var turn = random.Angle();
        var ringFrom = random.Angle();
        var stain = _stain * random.Uniform(0f, 1.3f);
        var isBare = random.Chance(_bare);
        var (cos, sin) = (MathF.Cos(turn), MathF.Sin(turn));
        var groove = MathF.Max(1f, RadiusPx * 0.1f);
        var box = PixelBox.Around(x, y, reach, context.Width, context.Height);
        for (var py = box.Y0; py < box.Y1; py++)
        {
            for (var px = box.X0; px < box.X1; px++)
            {
                var at = (py * context.Width) + px;
                var dx = px - x;
                var dy = py - y;
                var distance = MathF.Sqrt((dx * dx) + (dy * dy));
                var ring = 1f - MathF.Min(1f, MathF.Abs(distance - RadiusPx) / groove);

                // Paint bridges part of the groove, so that only an arc of it shows.
                var shown = Math.Clamp(0.5f + (1.2f * (_ringShare - 0.5f)) + (0.6f * MathF.Cos(MathF.Atan2(dy, dx) - ringFrom)), 0.05f, 1f);
                LayPoint(context.Surface, at, distance, ring, ring * shown, groove, stain);
                if (isBare)
                {
                    context.Surface.Cover(at, _metal, 0.9f * Inside(distance));
                }

                if (_kind is Kind.SlotScrew or Kind.CrossScrew)
                {
                    LaySlot(context.Surface, at, (dx * cos) + (dy * sin), (dy * cos) - (dx * sin));
                }
            }
        }
    }

    private void LayPoint(PanelSurface surface, int at, float distance, float ring, float shownRing, float groove, float stain)
    {
        var mm = surface.MmPerPx;
        var share2 = distance * distance / (2.2f * RadiusPx * RadiusPx);
        surface.HeightMm.Values[at] -= _dimple * RadiusPx * mm * MathF.Exp(-share2);
        if (stain > 0f)
        {
            surface.Tint(at, _stainColor, MathF.Min(0.9f, stain) * Ramp.Smooth(groove * 4f, 0f, MathF.Abs(distance - RadiusPx)));
        }

        switch (_kind)
        {
            case Kind.Hole:
                surface.Cover(at, new Coat(Rgb.Gray(0.008f), 0f, 0.005f, 0.5f), Inside(distance));
                surface.HeightMm.Values[at] -= _depth * mm * ring * groove;
                return;
            case Kind.CountersunkHole:
                // A cone of bare or stained metal around a black bore.
                surface.Cover(at, new Coat(_countersink, 0f, 0.1f, 0.3f), Inside(distance));
                surface.Cover(at, new Coat(Rgb.Gray(0.008f), 0f, 0.005f, 0.5f), Ramp.Smooth((0.62f * RadiusPx) + 0.7f, (0.62f * RadiusPx) - 0.7f, distance));
                surface.HeightMm.Values[at] -= 0.6f * mm * MathF.Max(0f, RadiusPx - distance);
                return;
            case Kind.DomeRivet:
                var share = 1f - (distance * distance / (RadiusPx * RadiusPx));
                surface.HeightMm.Values[at] += (0.25f + (0.5f * _depth)) * RadiusPx * mm * MathF.Sqrt(MathF.Max(0f, share));
                break;
            default:
                surface.HeightMm.Values[at] += mm * RadiusPx * _rise * Ramp.Smooth(RadiusPx + groove, RadiusPx - groove, distance);
                surface.HeightMm.Values[at] -= _depth * mm * shownRing * groove * 0.6f;
                break;
        }

        surface.Tint(at, _ringColor, _ringTone * shownRing);
    }

    private void LaySlot(PanelSurface surface, int at, float along, float across)
    {
        var (a, b) = (MathF.Abs(along), MathF.Abs(across));
        var slot = Bar(a, b, RadiusPx * (_kind == Kind.CrossScrew ? 0.5f : 0.8f), RadiusPx * 0.13f);
        if (_kind == Kind.CrossScrew)
        {
            slot = MathF.Max(slot, Bar(b, a, RadiusPx * 0.5f, RadiusPx * 0.13f));
        }

        surface.Tint(at, Rgb.Gray(0.015f), 0.9f * slot);
        surface.HeightMm.Values[at] -= 0.5f * surface.MmPerPx * slot;
    }

    private float Inside(float distance) => Ramp.Smooth(RadiusPx + 0.7f, RadiusPx - 0.7f, distance);

    private static float Bar(float along, float across, float half, float halfWidth) =>
        Ramp.Smooth(half + 0.6f, half - 0.6f, along) * Ramp.Smooth(halfWidth + 0.6f, halfWidth - 0.6f, across);
}
