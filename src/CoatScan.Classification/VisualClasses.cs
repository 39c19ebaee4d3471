namespace CoatScan.Classification;

/// <summary>What the classifier can tell apart: things that can be seen, never causes.</summary>
public static class VisualClasses
{
    /// <summary>Nothing wrong shows; seams, fasteners, lettering and reflections may.</summary>
    public const string Sound = "sound";

    /// <summary>Circular flat marks or stains.</summary>
    public const string RoundSpots = "round_spots";

    /// <summary>Circular marks whose rim differs from their middle.</summary>
    public const string Rings = "rings";

    /// <summary>Raised round bumps, as of blisters.</summary>
    public const string Domes = "domes";

    /// <summary>Round pits with a raised rim.</summary>
    public const string Craters = "craters";

    /// <summary>Small raised grains, as of dust under clear coat.</summary>
    public const string Nibs = "nibs";

    /// <summary>Waviness all over, as of orange peel.</summary>
    public const string WavyTexture = "wavy_texture";

    /// <summary>Sagged curtains and tears of paint.</summary>
    public const string Runs = "runs";

    /// <summary>Crumpled, folded film.</summary>
    public const string Wrinkles = "wrinkles";

    /// <summary>Lines that meet and enclose islands.</summary>
    public const string CrackNetwork = "crack_network";

    /// <summary>Thin lines and arcs that cut or dull the film.</summary>
    public const string Scratches = "scratches";

    /// <summary>Small spots where paint broke out.</summary>
    public const string Chips = "chips";

    /// <summary>Larger areas where paint left a layer below.</summary>
    public const string FilmLoss = "film_loss";

    /// <summary>Corrosion product on or from under the film.</summary>
    public const string Rust = "rust";

    /// <summary>Areas without mirror-like reflection.</summary>
    public const string Dulling = "dulling";

    /// <summary>The photo shows no painted panel.</summary>
    public const string NotAPanel = "not_a_panel";

    /// <summary>All ids, in the order of the model's outputs.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Sound, RoundSpots, Rings, Domes, Craters, Nibs, WavyTexture, Runs,
        Wrinkles, CrackNetwork, Scratches, Chips, FilmLoss, Rust, Dulling, NotAPanel,
    ];

    /// <summary>Position of an id in <see cref="All"/>, or -1.</summary>
    public static int IndexOf(string visualClass)
    {
        for (var i = 0; i < All.Count; i++)
        {
            if (string.Equals(All[i], visualClass, StringComparison.Ordinal))
            {
                return i;
            }
        }

        return -1;
    }
}
