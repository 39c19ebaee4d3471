namespace CoatScan.FuzzTests.Pictures;

/// <summary>The bytes of an odd picture, read; bytes that lack are 0.</summary>
internal sealed class Recipe
{
    /// <summary>Reads a recipe.</summary>
    public Recipe(byte[] bytes)
    {
        var all = new byte[OddPicture.RecipeBytes];
        bytes.AsSpan(0, Math.Min(bytes.Length, all.Length)).CopyTo(all);
        Kind = all[0] % OddPicture.Kinds;

        // Most are small, the largest are as large as the planes of a photo get: 4 million pixels.
        WidthPx = 96 + (all[1] * all[1] / 29);
        Period = 1 + (all[2] % 40);
        Thickness = 1 + (all[3] % 6);
        Contrast = 4 + (all[4] * 0.9);
        Seed = all[5] + (256 * all[7]);
        Base = 20 + (all[6] % 200);
        Tint = all[7] % 4;
        Random = new Random(Seed);
    }

    public int Kind { get; }

    public int WidthPx { get; }

    public int HeightPx => WidthPx * 3 / 4;

    /// <summary>Pixels until a pattern comes again, [1, 40].</summary>
    public int Period { get; }

    /// <summary>The same, with room for lines between.</summary>
    public int Pitch => Period + Thickness + 1;

    /// <summary>Pixels, [1, 6].</summary>
    public int Thickness { get; }

    /// <summary>Values of 8 bits between ground and mark.</summary>
    public double Contrast { get; }

    /// <summary>Value of the ground.</summary>
    public double Base { get; }

    /// <summary>Value of a mark: to the side where there is more room.</summary>
    public double Mark => Base > 127 ? Base - Contrast : Base + Contrast;

    public int Tint { get; }

    public int Seed { get; }

    public Random Random { get; }
}
