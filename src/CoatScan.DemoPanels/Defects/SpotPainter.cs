using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Lays single spots of one look: what stains and deposits share.</summary>
internal sealed class SpotPainter(PanelContext context, SpotLook look, float radiusPx)
{
    private readonly Plane _texture = context.Field(MathF.Max(3f, radiusPx * 0.5f), 3, 0.6f);

    /// <summary>A number of spots that fits their size.</summary>
    public static int DrawCount(PanelContext context, float radiusPx) => Math.Clamp(
        (int)context.Random.LogUniform(4f, 160f / MathF.Max(1f, radiusPx * radiusPx / (60f * context.PxScale * context.PxScale))), 3, 140);

    public void Lay(Blob blob, float share)
    {
        var surface = context.Surface;
        var box = PixelBox.Around(blob.CenterX, blob.CenterY, blob.ReachPx + 3f, context.Width, context.Height);
        var crown = look.Slope * blob.RadiusPx * surface.MmPerPx * 0.6f;
        for (var y = box.Y0; y < box.Y1; y++)
        {
            for (var x = box.X0; x < box.X1; x++)
            {
                var at = (y * surface.Width) + x;
                var distance = blob.DistancePx(x, y) + (0.12f * blob.RadiusPx * _texture.Values[at]);
                var inside = Ramp.Smooth(0.9f, -0.9f - (look.Softness * blob.RadiusPx), distance);
                if (inside <= 0f)
                {
                    continue;
                }

                var patchy = 1f - (look.Mottling * Ramp.Smooth(-0.4f, 1.4f, _texture.Values[at]));
                var opacity = MathF.Min(1f, look.Opacity * share * patchy * (0.8f + (0.2f * context.Strength)));
                surface.Cover(at, new Coat(look.Color, 0f, look.SpecularF0, look.RoughnessUm), inside * opacity);
                var depth = Math.Clamp(-distance / blob.RadiusPx, 0f, 1f);
                surface.HeightMm.Values[at] += crown * depth * (2f - depth);
                surface.MarkDefect(at, Ramp.Smooth(0.9f, -0.9f, distance));
            }
        }
    }
}
