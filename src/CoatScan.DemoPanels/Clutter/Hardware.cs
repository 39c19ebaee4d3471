using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>Rivets, screws and holes where sheet metal has them: in rows, along seams and around covers, or alone.</summary>
internal static class Hardware
{
    /// <summary>Rows across the sheet that follow no visible seam.</summary>
    public static void LayRows(PanelContext context)
    {
        var random = context.Random;
        var lines = random.Whole(1, 4);
        var piece = Fastener.Draw(context);
        for (var i = 0; i < lines; i++)
        {
            if (random.Chance(0.35f))
            {
                piece = Fastener.Draw(context);
            }

            LayAlong(context, SeamLine.Draw(context, 0.1f), piece, 0f);
        }
    }

    /// <summary>A few pieces anywhere.</summary>
    public static void LaySingles(PanelContext context)
    {
        var random = context.Random;
        var piece = Fastener.Draw(context);
        var count = random.Whole(1, 6);
        for (var i = 0; i < count; i++)
        {
            Lay(context, piece, random.Uniform(0f, 1f) * context.Width, random.Uniform(0f, 1f) * context.Height);
        }
    }

    /// <summary>One or two rows beside a seam, on one side or both.</summary>
    public static void LayBeside(PanelContext context, SeamLine line)
    {
        var random = context.Random;
        var piece = Fastener.Draw(context);
        var offset = piece.RadiusPx * random.Uniform(1.8f, 4f);
        var side = line.IsCover || random.Chance(0.5f) ? -1f : 1f;
        LayAlong(context, line, piece, side * offset);
        if (random.Chance(0.4f))
        {
            LayAlong(context, line, random.Chance(0.5f) ? piece : Fastener.Draw(context), -side * offset);
        }

        if (random.Chance(0.25f))
        {
            LayAlong(context, line, piece, side * (offset + (piece.RadiusPx * random.Uniform(3f, 6f))));
        }
    }

    private static void LayAlong(PanelContext context, SeamLine line, Fastener piece, float distancePx)
    {
        var random = context.Random;
        var pitch = piece.RadiusPx * random.Uniform(3.2f, 13f);
        var missing = random.Chance(0.3f) ? 0.15f : 0.02f;
        foreach (var (x, y) in line.Row(distancePx, pitch))
        {
            if (!random.Chance(missing))
            {
                Lay(
                    context, piece, x + (0.06f * piece.RadiusPx * random.Gaussian()), y + (0.06f * piece.RadiusPx * random.Gaussian()));
            }
        }
    }

    private static void Lay(PanelContext context, Fastener piece, float x, float y)
    {
        piece.Lay(context, x, y);
        context.Anchors.Add(x, y);
    }
}
