using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Defects;

/// <summary>One to three long scratches, each on its own way: a key, a branch, a corner of a load.</summary>
internal static class SingleScratch
{
    public static void Paint(PanelContext context)
    {
        var random = context.Random;
        var marks = new Plane(context.Width, context.Height);
        var count = random.Weighted(0.6f, 0.25f, 0.15f) + 1;
        for (var i = 0; i < count; i++)
        {
            var length = random.LogUniform(i == 0 ? 0.3f : 0.15f, 1.1f) * context.Side;
            var width = random.LogUniform(2f, 5.5f) * context.PxScale;
            var line = Stroke.Arc(
                random, random.Uniform(0.2f, 0.8f) * context.Width, random.Uniform(0.2f, 0.8f) * context.Height,
                length, random.Angle(), 0.5f * random.Gaussian(), width, random.Chance(0.3f) ? 0.9f : 0.2f);
            Stroke.Draw(marks, line, random.Uniform(0.75f, 1f));
        }

        ScratchFilling.Lay(context, marks, isFine: false);
    }
}
