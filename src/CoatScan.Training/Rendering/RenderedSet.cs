using CoatScan.Classification;
using CoatScan.DemoPanels;

namespace CoatScan.Training.Rendering;

/// <summary>Which panels to render. Sets never share a seed.</summary>
/// <param name="Name">What the set is for.</param>
/// <param name="FirstSeed">Seed of the first panel of each class; the others follow.</param>
/// <param name="PerClass">Panels of each class.</param>
/// <param name="Harsh">Whether the camera is worse than that of a careful user.</param>
/// <param name="MoreSound">
/// How many more sound panels there are, in multiples of <paramref name="PerClass"/>: sound panels with all that is on
/// them are what most photos show.
/// </param>
internal sealed record RenderedSet(string Name, int FirstSeed, int PerClass, bool Harsh, int MoreSound = 0)
{
    /// <summary>Where paint, light, camera and clutter are drawn from; nothing is trained or calibrated on the shifted look.</summary>
    public PanelLook Look { get; init; } = PanelLook.Usual;

    /// <summary>Whether every panel has two faults; sound panels and other pictures are left out then.</summary>
    public bool TwoFaults { get; init; }

    /// <summary>Whether the product's measurements are taken too: only the comparison of models needs them.</summary>
    public bool Measured { get; init; } = true;

    private const int SeedStride = 100_000;

    // Sound is the first class of every list.
    private const int Sound = 0;

    private static readonly int[] AllClasses = [.. Enumerable.Range(0, VisualClasses.All.Count)];

    private static readonly int[] Faults = [.. AllClasses.Where(VisualClasses.IsFault)];

    /// <summary>Number of panels.</summary>
    public int Count => PerClass * (Kinds.Length + MoreSound);

    private int[] Kinds => TwoFaults ? Faults : AllClasses;

    /// <summary>One panel. The classes take turns, so that every core gets slow and quick ones alike.</summary>
    public RenderedItem Item(int at)
    {
        var count = Kinds.Length;
        var (round, turn) = Math.DivRem(at, count + MoreSound);
        var label = turn < count ? Kinds[turn] : Sound;
        var seed = FirstSeed + round + (turn < count ? 0 : (turn - count + 1) * SeedStride);

        // Coming from far enough on in the list, the second faults take turns too.
        var second = TwoFaults ? Faults[(turn + 1 + (seed * 7 % (count - 1))) % count] : -1;
        return new RenderedItem(label, seed, second);
    }
}
