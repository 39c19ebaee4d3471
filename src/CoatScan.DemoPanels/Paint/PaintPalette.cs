using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Paint;

/// <summary>Draws finishes as they stand in the street; shares are a guess: neutral colors lead.</summary>
internal static class PaintPalette
{
    // ((1.5 - 1) / (1.5 + 1))^2: normal reflectance of a film of refractive index 1.5.
    private const float ClearCoatF0 = 0.04f;

    public static Paint Draw(PanelRandom random)
    {
        var kind = random.Weighted(16f, 15f, 13f, 9f, 12f, 8f, 8f, 8f, 6f, 5f, 2f);
        var value = random.Uniform();
        var color = kind switch
        {
            0 => Rgb.Gray(Ramp.Mix(0.62f, 0.85f, value)),
            1 => Rgb.Gray(Ramp.Mix(0.28f, 0.55f, value)),
            2 => Rgb.Gray(Ramp.Mix(0.1f, 0.28f, value)),
            3 => Rgb.Gray(Ramp.Mix(0.3f, 0.5f, value)),
            4 => Rgb.Gray(Ramp.Mix(0.008f, 0.03f, value)),
            5 => Rgb.Hue(random.Uniform(0.54f, 0.66f), random.Uniform(0.15f, 0.6f), Ramp.Mix(0.15f, 0.4f, value)),
            6 => Rgb.Hue(random.Uniform(-0.03f, 0.03f), random.Uniform(0.65f, 0.95f), Ramp.Mix(0.35f, 0.85f, value)),
            7 => Rgb.Hue(random.Uniform(0.52f, 0.64f), random.Uniform(0.4f, 0.95f), Ramp.Mix(0.3f, 0.85f, value)),
            8 => Rgb.Hue(random.Uniform(0.25f, 0.5f), random.Uniform(0.25f, 0.9f), Ramp.Mix(0.2f, 0.7f, value)),
            9 => Rgb.Hue(random.Uniform(0.06f, 0.14f), random.Uniform(0.1f, 0.45f), Ramp.Mix(0.5f, 0.92f, value)),
            _ => Rgb.Hue(random.Uniform(0.03f, 0.16f), random.Uniform(0.6f, 0.95f), Ramp.Mix(0.5f, 0.95f, value)),
        };
        color = new Rgb(
            color.R * (1f + (0.04f * random.Gaussian())), color.G, color.B * (1f + (0.05f * random.Gaussian())));
        var flakes = kind == 3 || random.Chance(0.3f) ? random.LogUniform(0.02f, 0.12f) : 0f;
        var roughness = random.Weighted(0.6f, 0.25f, 0.15f) switch
        {
            0 => random.LogUniform(0.01f, 0.05f),
            1 => random.LogUniform(0.05f, 0.12f),
            _ => random.LogUniform(0.12f, 0.35f),
        };
        return new Paint(color.Clamp(0.006f, 0.88f), flakes, ClearCoatF0, roughness);
    }

    /// <summary>Finishes of working vehicles and machines: grays, greens, sands and a few signal colors, mostly satin or dull.</summary>
    public static Paint DrawWorking(PanelRandom random)
    {
        var value = random.Uniform();
        var color = random.Weighted(40f, 14f, 10f, 8f, 8f, 6f, 5f, 5f, 4f) switch
        {
            0 => Rgb.Hue(random.Uniform(0.15f, 0.62f), random.Uniform(0f, 0.12f), Ramp.Mix(0.3f, 0.8f, value)),
            1 => Rgb.Gray(Ramp.Mix(0.5f, 0.8f, value)),
            2 => Rgb.Hue(random.Uniform(0.08f, 0.16f), random.Uniform(0.08f, 0.3f), Ramp.Mix(0.4f, 0.85f, value)),
            3 => Rgb.Hue(random.Uniform(0.3f, 0.5f), random.Uniform(0.1f, 0.4f), Ramp.Mix(0.2f, 0.6f, value)),
            4 => Rgb.Hue(random.Uniform(0.16f, 0.3f), random.Uniform(0.2f, 0.5f), Ramp.Mix(0.15f, 0.5f, value)),
            5 => Rgb.Hue(random.Uniform(-0.02f, 0.04f), random.Uniform(0.6f, 0.95f), Ramp.Mix(0.4f, 0.9f, value)),
            6 => Rgb.Hue(random.Uniform(0.09f, 0.15f), random.Uniform(0.6f, 0.95f), Ramp.Mix(0.6f, 0.95f, value)),
            7 => Rgb.Hue(random.Uniform(0.4f, 0.62f), random.Uniform(0.4f, 0.95f), Ramp.Mix(0.2f, 0.7f, value)),
            _ => Rgb.Gray(Ramp.Mix(0.02f, 0.12f, value)),
        };
        var roughness = random.Chance(0.35f) ? random.LogUniform(0.02f, 0.08f) : random.LogUniform(0.08f, 0.4f);
        return new Paint(color.Clamp(0.006f, 0.88f), 0f, ClearCoatF0, roughness);
    }
}
