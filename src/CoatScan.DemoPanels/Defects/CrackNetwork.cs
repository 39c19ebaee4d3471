using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>Cracks that join to cells, often with smaller cells inside and lifted edges.</summary>
internal static class CrackNetwork
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var cracks = new Plane(context.Width, context.Height);
        var cell = context.SizePx(3f, 40f, 16f, 130f);
        var aspect = random.Chance(0.5f) ? random.LogUniform(1f, 5f) : random.LogUniform(0.8f, 1.3f);
        var angle = random.Angle();
        var width = MathF.Max(0.7f * context.PxScale, cell * random.LogUniform(0.012f, 0.05f));
        var region = context.Region(0.4f);
        var uneven = context.Field(cell, 2);
        AddCells(context, cracks, cell, aspect, angle, width, region, uneven, 0.0f);
        if (random.Chance(0.5f))
        {
            AddCells(context, cracks, cell * random.Uniform(0.35f, 0.6f), aspect, angle, width * 0.6f, region, uneven, 0.45f);
        }

        CrackFilling.Lay(context, cracks, random.Chance(0.7f) ? MathF.Max(3f, cell * random.Uniform(0.08f, 0.25f)) : 0f);
    }

    private static void AddCells(
        PanelContext context, Plane cracks, float cell, float aspect, float angle, float width, Plane region, Plane uneven, float gate)
    {
        var cells = CellField.Build(
            context.Random, context.Width, context.Height, cell, aspect, angle, cell * context.Random.Uniform(0.04f, 0.14f));
        for (var at = 0; at < cracks.Values.Length; at++)
        {
            var open = (region.Values[at] - gate) * (1f + (0.45f * uneven.Values[at]));
            var half = width * Math.Clamp(open, 0f, 1.8f);
            if (half > 0.15f)
            {
                var value = Math.Clamp(half + 0.5f - cells.BorderDistancePx.Values[at], 0f, MathF.Min(1f, 2f * half));
                cracks.Values[at] = MathF.Max(cracks.Values[at], value);
            }
        }
    }
}
