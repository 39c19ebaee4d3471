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

    /// <summary>Number of panels.</summary>
    public int Count => PerClass * (VisualClasses.All.Count + MoreSound);

    /// <summary>Class and seed of one panel. The classes take turns, so that every core gets slow and quick ones alike.</summary>
    public (int Class, int Seed) Item(int at)
    {
        var classes = VisualClasses.All.Count;
        var (round, turn) = Math.DivRem(at, classes + MoreSound);
        return turn < classes
            ? (turn, FirstSeed + round)
            : (VisualClasses.IndexOf(VisualClasses.Sound), FirstSeed + ((turn - classes + 1) * SeedStride) + round);
    }
}
