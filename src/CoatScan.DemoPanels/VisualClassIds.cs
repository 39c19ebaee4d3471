namespace CoatScan.DemoPanels;

/// <summary>The visual classes: what a photo of paint can show, as ids. Fixed; the order is the order of training labels.</summary>
public static class VisualClassIds
{
    /// <summary>Sound paint, whatever hardware, dirt or reflections lie over it.</summary>
    public const string Sound = "sound";

    /// <summary>Pale or dark, round or irregular spots on or in the film.</summary>
    public const string RoundSpots = "round_spots";

    /// <summary>Closed ring outlines.</summary>
    public const string Rings = "rings";

    /// <summary>Raised blisters.</summary>
    public const string Domes = "domes";

    /// <summary>Bowls with a raised lip, and pits.</summary>
    public const string Craters = "craters";

    /// <summary>A few small raised grains.</summary>
    public const string Nibs = "nibs";

    /// <summary>Fine waves all over: orange peel.</summary>
    public const string WavyTexture = "wavy_texture";

    /// <summary>Sags, curtains and tears with a thick lower edge.</summary>
    public const string Runs = "runs";

    /// <summary>Puckered skin.</summary>
    public const string Wrinkles = "wrinkles";

    /// <summary>Joined or forking irregular cracks.</summary>
    public const string CrackNetwork = "crack_network";

    /// <summary>Single long scratches, parallel sets, arcs of swirl.</summary>
    public const string Scratches = "scratches";

    /// <summary>Small areas of film loss with sharp, layered edges.</summary>
    public const string Chips = "chips";

    /// <summary>Large, step-edged areas where another coat or metal shows.</summary>
    public const string FilmLoss = "film_loss";

    /// <summary>Rust spots, blooms, bubbling edges and their stains.</summary>
    public const string Rust = "rust";

    /// <summary>Chalk, haze or fading: a weak veil and a blurred reflection over much of the panel.</summary>
    public const string Dulling = "dulling";

    /// <summary>No painted vehicle panel at all.</summary>
    public const string NotAPanel = "not_a_panel";

    /// <summary>All ids, in label order.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Sound, RoundSpots, Rings, Domes, Craters, Nibs, WavyTexture, Runs, Wrinkles, CrackNetwork, Scratches, Chips,
        FilmLoss, Rust, Dulling, NotAPanel,
    ];
}
