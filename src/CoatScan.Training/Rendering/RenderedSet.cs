using CoatScan.Classification;

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
    private const int SeedStride = 100_000;

    // Sound is the first class of every list.
    private const int Sound = 0;

    /// <summary>Number of panels.</summary>
    public int Count => PerClass * (VisualClasses.All.Count + MoreSound);

    /// <summary>One panel. The classes take turns, so that every core gets slow and quick ones alike.</summary>
    public RenderedItem Item(int at)
    {
        var count = VisualClasses.All.Count;
        var (round, turn) = Math.DivRem(at, count + MoreSound);
        var label = turn < count ? turn : Sound;
        var seed = FirstSeed + round + (turn < count ? 0 : (turn - count + 1) * SeedStride);
        return new RenderedItem(label, seed);
    }
}
