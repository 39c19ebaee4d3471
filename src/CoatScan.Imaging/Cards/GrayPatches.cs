using CoatScan.Imaging.Color;
using CoatScan.Imaging.Normalizing;

namespace CoatScan.Imaging.Cards;

/// <summary>Reads the light from a card's paper and gray patches, found by the homography.</summary>
/// <remarks>
/// <para>Patches of black ink on white paper have one color at every step, so that their ratios of red and blue to green are those of
/// the light. Places that glare clips, a shade's border crosses, or that hardly have a pixel are left out; of the others most must
/// agree, else nothing is said.</para>
/// <para>Deterministic. All limits: common practice, no source.</para>
/// </remarks>
internal static class GrayPatches
{
    // Away from the borders, which blur mixes.
    private const double MarginMm = 1.5;
    private const double PaperMarginMm = 0.3;
    private const int StepsAcross = 6;
    private const int StepsDown = 12;
    private const int LeastPixels = 16;

    private const float LeastLevel = 0.01f;
    private const float MostLevel = 0.95f;

    // Median distance from the median, over the median: a border of shade gives more, noise less.
    private const double MostUnevenness = 0.12;

    // Least nominal reflectance of a patch whose color counts: below, stray light has too large a part.
    private const double LeastReflectance = 0.09;

    private const int LeastAgreeing = 3;
    private const double MostLogDifference = 0.05;
    private const double MostPaperDifference = 0.15;
    private static readonly double MostLogGain = Math.Log(3);

    // White office paper with brightener and black toner are a little off neutral.
    private const double PaperTolerance = 0.05;

    /// <summary>Reads the places.</summary>
    /// <param name="photo">The photo, before its white is balanced.</param>
    /// <param name="fromMm">From millimeters on the card, its upper left corner, to pixels.</param>
    public static GrayReading Read(ReducedPhoto photo, Matrix3 fromMm)
    {
        Patch?[] paper = [.. ScaleCard.PaperPlaces.Select(place => Sample(photo, fromMm, place, PaperMarginMm))];
        double? paperLevel = paper is [{ } beside, { } above]
            && Math.Abs(beside.Green - above.Green) <= MostPaperDifference * Math.Max(beside.Green, above.Green)
            ? (beside.Green + above.Green) / 2
            : null;
        var usable = paper
            .Concat(ScaleCard.PatchPlaces.Where(patch => patch.Reflectance > LeastReflectance)
                .Select(place => Sample(photo, fromMm, place, MarginMm)))
            .OfType<Patch>()
            .Select(patch => (Red: Math.Log(patch.Red / patch.Green), Blue: Math.Log(patch.Blue / patch.Green)))
            .ToList();
        if (usable.Count < LeastAgreeing)
        {
            return Nothing($"only {usable.Count} of the card's neutral places can be read; {LeastAgreeing} are needed");
        }

        double middleRed = Median(usable.Select(one => one.Red));
        double middleBlue = Median(usable.Select(one => one.Blue));
        var agreeing = usable
            .Where(one => Math.Max(Math.Abs(one.Red - middleRed), Math.Abs(one.Blue - middleBlue)) <= MostLogDifference)
            .ToList();
        if (agreeing.Count < LeastAgreeing || 2 * agreeing.Count <= usable.Count)
        {
            return Nothing($"the card's gray patches disagree: {agreeing.Count} of {usable.Count} show one color of the light");
        }

        double red = agreeing.Average(one => one.Red);
        double blue = agreeing.Average(one => one.Blue);
        if (Math.Max(Math.Abs(red), Math.Abs(blue)) > MostLogGain)
        {
            return Nothing("the card's gray patches are too far from neutral to be gray");
        }

        double scatter = agreeing.Average(one => Math.Max((one.Red - red) * (one.Red - red), (one.Blue - blue) * (one.Blue - blue)));
        double half = 1.96 * Math.Sqrt(scatter / (agreeing.Count - 1));
        return new GrayReading(
            Math.Exp(-red),
            Math.Exp(-blue),
            Math.Sqrt((half * half) + (PaperTolerance * PaperTolerance)),
            paperLevel,
            agreeing.Count == usable.Count
                ? $"{agreeing.Count} neutral places of the card agree on the light's color"
                : $"{agreeing.Count} of {usable.Count} neutral places of the card agree on the light's color; the others were left out");

        GrayReading Nothing(string why) => new(null, null, null, paperLevel, why);
    }

    // Medians of the channels; null where the place cannot be read.
    private static Patch? Sample(ReducedPhoto photo, in Matrix3 fromMm, in CardRectangle place, double marginMm)
    {
        var pixels = new HashSet<int>();
        for (int row = 0; row < StepsDown; row++)
        {
            for (int column = 0; column < StepsAcross; column++)
            {
                double share = (column + 0.5) / StepsAcross;
                double down = (row + 0.5) / StepsDown;
                var (x, y) = PlaneMapping.Map(
                    fromMm,
                    place.XMm + marginMm + (share * (place.WidthMm - (2 * marginMm))),
                    place.YMm + marginMm + (down * (place.HeightMm - (2 * marginMm))));
                if (!(x >= 0 && y >= 0 && x < photo.Green.Width && y < photo.Green.Height))
                {
                    return null;
                }

                pixels.Add(((int)y * photo.Green.Width) + (int)x);
            }
        }

        if (pixels.Count < LeastPixels || pixels.Any(i => photo.Clipped[i]))
        {
            return null;
        }

        double red = Median(pixels.Select(i => (double)photo.Red.Values[i]));
        double green = Median(pixels.Select(i => (double)photo.Green.Values[i]));
        double blue = Median(pixels.Select(i => (double)photo.Blue.Values[i]));
        double unevenness = Median(pixels.Select(i => Math.Abs(photo.Green.Values[i] - green))) / Math.Max(green, LeastLevel);
        return Math.Min(red, Math.Min(green, blue)) >= LeastLevel
            && Math.Max(red, Math.Max(green, blue)) <= MostLevel
            && unevenness <= MostUnevenness
            ? new Patch(red, green, blue)
            : null;
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted[sorted.Length / 2];
    }

    private readonly record struct Patch(double Red, double Green, double Blue);
}
