using ZXing;
using ZXing.Common;
using ZXing.QrCode.Internal;

namespace CoatScan.Imaging.Cards;

/// <summary>The centers of a code's three finder patterns, pixels; (0, 0) is the corner of the first pixel.</summary>
internal sealed record FinderPatterns((double X, double Y) UpperLeft, (double X, double Y) UpperRight, (double X, double Y) LowerLeft)
{
    private static readonly Dictionary<DecodeHintType, object> EveryThirdRow = new() { [DecodeHintType.TRY_HARDER] = true };

    /// <summary>The most likely three; null if there are not three.</summary>
    /// <param name="picture">Black and white.</param>
    /// <param name="step">Pixels of the plane in one of the picture.</param>
    public static FinderPatterns? Find(BitMatrix picture, int step)
    {
        var search = new Search(picture);
        search.detect(EveryThirdRow);
        return search.Found is { } found
            ? new FinderPatterns(Place(found.TopLeft, step), Place(found.TopRight, step), Place(found.BottomLeft, step))
            : null;
    }

    private static (double X, double Y) Place(ResultPoint point, int step) => (point.X * step, point.Y * step);

    // The library finds the patterns well, but takes the number of modules and the fourth corner from lengths, which a tilt falsifies.
    private sealed class Search(BitMatrix picture) : Detector(picture)
    {
        public FinderPatternInfo? Found { get; private set; }

        protected override DetectorResult processFinderPatternInfo(FinderPatternInfo info)
        {
            Found = info;
            return null!;
        }
    }
}
