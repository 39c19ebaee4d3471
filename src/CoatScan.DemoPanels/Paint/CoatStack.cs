using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Paint;

/// <summary>The coats of a panel from the outermost inward; the last one is metal.</summary>
/// <remarks>
/// Thickness follows common practice, no source of standing: clear 35-60 um, color 10-40 um, primer 25-40 um, electrocoat
/// 18-25 um; repainted panels carry several times that.
/// </remarks>
internal sealed class CoatStack
{
    private CoatStack(Paint paint, IReadOnlyList<Coat> coats)
    {
        Paint = paint;
        Coats = coats;
    }

    public Paint Paint { get; }

    public IReadOnlyList<Coat> Coats { get; }

    public Coat Metal => Coats[^1];

    /// <summary>What lies below the color, outermost first, metal last.</summary>
    public IEnumerable<Coat> Undercoats => Coats.Skip(1);

    public static CoatStack Draw(PanelRandom random, Paint paint)
    {
        var repaints = random.Chance(0.45f) ? random.LogUniform(1.5f, 5f) : 1f;
        var coats = new List<Coat>
        {
            new(paint.Albedo, random.Uniform(0.05f, 0.1f) * repaints, paint.SpecularF0, paint.RoughnessUm),
        };
        if (random.Chance(0.3f))
        {
            coats.Add(Under(random, coats[^1], PaintPalette.Draw(random).Albedo, random.Uniform(0.04f, 0.1f) * repaints));
        }

        coats.Add(Under(random, coats[^1], DrawPrimer(random), random.Uniform(0.03f, 0.08f) * repaints));
        if (random.Chance(0.4f))
        {
            coats.Add(Under(random, coats[^1], DrawPrimer(random), random.Uniform(0.02f, 0.04f)));
        }

        coats.Add(DrawMetal(random));
        return new CoatStack(paint, coats);
    }

    /// <summary>The undercoats from a drawn one inward that differ visibly from the color: what a fault may lay bare.</summary>
    public Coat PickBared(PanelRandom random)
    {
        for (var i = 0; i < 6; i++)
        {
            var coat = Coats[random.Whole(1, Coats.Count)];
            if (coat.Albedo.DisplayDistance(Paint.Albedo) > 0.12f)
            {
                return coat;
            }
        }

        return Coats[^1];
    }

    private static Coat Under(PanelRandom random, Coat above, Rgb color, float thicknessMm)
    {
        // Coats of one tone would hide the step that a layered edge is known by.
        for (var i = 0; i < 5 && color.DisplayDistance(above.Albedo) < 0.12f; i++)
        {
            color = DrawPrimer(random);
        }

        return new Coat(color, thicknessMm, random.Uniform(0.01f, 0.04f), random.Uniform(0.15f, 0.6f));
    }

    private static Rgb DrawPrimer(PanelRandom random)
    {
        var color = random.Weighted(3f, 3f, 2.5f, 1.5f, 2f, 1.5f, 1.5f) switch
        {
            0 => Rgb.Display(0.84f, 0.84f, 0.82f),
            1 => Rgb.Gray(random.Uniform(0.1f, 0.35f)),
            2 => Rgb.Display(0.86f, 0.79f, 0.55f),
            3 => Rgb.Display(0.62f, 0.64f, 0.32f),
            4 => Rgb.Display(0.48f, 0.24f, 0.16f),
            5 => Rgb.Gray(random.Uniform(0.015f, 0.04f)),
            _ => Rgb.Display(0.66f, 0.52f, 0.36f),
        };
        return Vary(random, color, 0.2f);
    }

    private static Coat DrawMetal(PanelRandom random)
    {
        var gray = random.Uniform(0.16f, 0.42f);
        var color = Vary(random, new Rgb(gray, gray, gray), 0.05f);
        return new Coat(color, 0f, random.Uniform(0.1f, 0.4f), random.Uniform(0.1f, 0.4f), IsMetal: true);
    }

    private static Rgb Vary(PanelRandom random, Rgb color, float amount)
    {
        var level = 1f + (amount * random.Gaussian());
        return new Rgb(
            color.R * level * (1f + (0.05f * random.Gaussian())),
            color.G * level,
            color.B * level * (1f + (0.08f * random.Gaussian()))).Clamp(0.008f, 0.9f);
    }
}
