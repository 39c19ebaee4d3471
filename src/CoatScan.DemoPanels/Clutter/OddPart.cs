using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>
/// A round part of a make nobody has named: random rings of height and tone, a random pattern across it. Real panels carry more makes of
/// screws, plugs, nozzles, sensors and latches than can be drawn one by one; what they share is that all of a row are alike.
/// </summary>
internal sealed class OddPart
{
    private const int Rings = 24;
    private readonly float[] _height = new float[Rings + 1];
    private readonly float[] _tone = new float[Rings + 1];
    private readonly float[] _cover = new float[Rings + 1];
    private readonly Coat _coat;
    private readonly int _fold;
    private readonly float _foldDepth;
    private readonly float _foldReach;
    private readonly float _soilTone;

    private OddPart(PanelContext context)
    {
        var random = context.Random;
        RadiusPx = context.SizePx(2.5f, 14f, 5f, 40f);
        var paint = context.Coats.Paint.Albedo;
        _coat = random.Weighted(0.35f, 0.25f, 0.2f, 0.2f) switch
        {
            0 => new Coat(paint, 0f, context.Coats.Paint.SpecularF0, context.Coats.Paint.RoughnessUm),
            1 => context.Coats.Metal,
            2 => new Coat(Rgb.Gray(random.LogUniform(0.008f, 0.08f)), 0f, 0.03f, 0.3f),
            _ => new Coat(Rgb.Hue(random.Uniform(), random.Uniform(0f, 0.7f), random.Uniform(0.2f, 0.9f)), 0f, 0.04f, 0.1f),
        };
        var height = RadiusPx * context.Surface.MmPerPx * random.LogUniform(0.04f, 0.5f);
        var steps = random.Whole(1, 5);
        float level = random.Chance(0.5f) ? 1f : -0.6f, tone = 1f;
        var next = Rings - random.Whole(1, 4);
        for (var i = Rings; i >= 0; i--)
        {
            if (i <= next && steps > 0)
            {
                level += random.Gaussian();
                tone = random.Chance(0.3f) ? random.Uniform(0.05f, 0.4f) : random.Uniform(0.7f, 1.3f);
                next -= random.Whole(2, Rings / 2);
                steps--;
            }

            _height[i] = i >= Rings - 1 ? 0f : height * level;
            _tone[i] = tone;
            _cover[i] = i >= Rings - 1 ? 0f : 1f;
        }

        _fold = random.Weighted(0.45f, 0.2f, 0.1f, 0.1f, 0.15f) switch { 0 => 0, 1 => 1, 2 => 2, 3 => 3, _ => 6 };
        _foldDepth = random.Uniform(0.3f, 0.95f);
        _foldReach = random.Uniform(0.25f, 0.9f);
        _soilTone = random.Chance(0.5f) ? random.Uniform(0.4f, 0.9f) : 1f;
    }

    public float RadiusPx { get; }

    public static OddPart Draw(PanelContext context) => new(context);

    public void Lay(PanelContext context, float x, float y)
    {
        var surface = context.Surface;
        var turn = context.Random.Angle();
        var box = PixelBox.Around(x, y, (RadiusPx * 1.4f) + 2f, context.Width, context.Height);
        for (var py = box.Y0; py < box.Y1; py++)
        {
            for (var px = box.X0; px < box.X1; px++)
            {
                var dx = px - x;
                var dy = py - y;
                var share = MathF.Sqrt((dx * dx) + (dy * dy)) / RadiusPx;
                var at = (py * surface.Width) + px;
                if (share < 1f)
                {
                    var pattern = _fold > 0 && share < _foldReach
                        ? 1f - (_foldDepth * Ramp.Smooth(0.2f, 0.5f, MathF.Cos(_fold * (MathF.Atan2(dy, dx) - turn))))
                        : 1f;
                    surface.Cover(at, _coat, At(_cover, share), MathF.Max(0.03f, At(_tone, share) * pattern));
                    surface.HeightMm.Values[at] += At(_height, share);
                }

                // A dark line of dirt and shadow where the part meets the sheet.
                var rim = (share - 1f) * RadiusPx / (1.3f * context.PxScale);
                surface.SetAlbedo(at, surface.Albedo(at) * (1f - ((1f - _soilTone) * MathF.Exp(-rim * rim * 0.5f))));
            }
        }
    }

    private static float At(float[] profile, float share)
    {
        var position = Math.Clamp(share, 0f, 1f) * Rings;
        var first = Math.Min(Rings - 1, (int)position);
        return Ramp.Mix(profile[first], profile[first + 1], position - first);
    }
}
