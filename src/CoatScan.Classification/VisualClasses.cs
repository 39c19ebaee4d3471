namespace CoatScan.Classification;

/// <summary>What the classifier can tell apart: things that can be seen, never causes.</summary>
public static class VisualClasses
{
    /// <summary>Nothing wrong shows; seams, fasteners, lettering and reflections may.</summary>
    public const string Sound = "sound";

    /// <summary>Flat or sunken marks of uneven outline in the film: etched, bleached, stained.</summary>
    public const string Stains = "stains";

    /// <summary>Foreign matter on the film: mineral crust, tar, sap, splashes.</summary>
    public const string Deposits = "deposits";

    /// <summary>Closed ring outlines.</summary>
    public const string Rings = "rings";

    /// <summary>Raised blisters.</summary>
    public const string Domes = "domes";

    /// <summary>Bowls with a raised lip.</summary>
    public const string Craters = "craters";

    /// <summary>Tiny open holes, many together.</summary>
    public const string Pits = "pits";

    /// <summary>A few small raised grains.</summary>
    public const string Nibs = "nibs";

    /// <summary>A sandy surface of many fused grains: dry spray, overspray.</summary>
    public const string Grit = "grit";

    /// <summary>Fine waves all over: orange peel.</summary>
    public const string WavyTexture = "wavy_texture";

    /// <summary>Sags, curtains and tears with a thick lower edge.</summary>
    public const string Runs = "runs";

    /// <summary>Puckered skin.</summary>
    public const string Wrinkles = "wrinkles";

    /// <summary>Cracks that join to cells.</summary>
    public const string CrackNetwork = "crack_network";

    /// <summary>Cracks that fork or stop and enclose nothing.</summary>
    public const string RandomCracks = "random_cracks";

    /// <summary>Scratches side by side, and patches rubbed one way.</summary>
    public const string ParallelScratches = "parallel_scratches";

    /// <summary>Fine arcs and loops of washing or polishing.</summary>
    public const string Swirl = "swirl";

    /// <summary>One to three long scratches, each on its own way.</summary>
    public const string SingleScratch = "single_scratch";

    /// <summary>Small areas of film loss with sharp, layered edges.</summary>
    public const string Chips = "chips";

    /// <summary>Large, step-edged areas where another coat or metal shows.</summary>
    public const string FilmLoss = "film_loss";

    /// <summary>Rust spots, blooms, bubbling edges and their stains.</summary>
    public const string Rust = "rust";

    /// <summary>Chalk, haze or fading: a weak veil and a blurred reflection over much of the panel.</summary>
    public const string Dulling = "dulling";

    /// <summary>Clouds or stripes of other lightness in the color coat.</summary>
    public const string Mottling = "mottling";

    /// <summary>The outline of an older repair: rims of sanded coats.</summary>
    public const string RepairOutline = "repair_outline";

    /// <summary>Two neighbors of nearly one color.</summary>
    public const string ColorDifference = "color_difference";

    /// <summary>The photo shows no painted panel.</summary>
    public const string NotAPanel = "not_a_panel";

    /// <summary>All ids, in the order of the model's outputs.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Sound, Stains, Deposits, Rings, Domes, Craters,
        Pits, Nibs, Grit, WavyTexture, Runs, Wrinkles,
        CrackNetwork, RandomCracks, ParallelScratches, Swirl, SingleScratch, Chips,
        FilmLoss, Rust, Dulling, Mottling, RepairOutline, ColorDifference,
        NotAPanel,
    ];

    private static readonly int SoundIndex = IndexOf(Sound);

    private static readonly int NotAPanelIndex = IndexOf(NotAPanel);

    /// <summary>Whether the class at a position of <see cref="All"/> is a fault of the paint.</summary>
    internal static bool IsFault(int index) => index != SoundIndex && index != NotAPanelIndex;

    /// <summary>Position of the most probable class; the first of equals.</summary>
    internal static int MostProbable(ReadOnlySpan<double> probabilities)
    {
        var most = 0;
        for (var i = 1; i < probabilities.Length; i++)
        {
            most = probabilities[i] > probabilities[most] ? i : most;
        }

        return most;
    }

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
