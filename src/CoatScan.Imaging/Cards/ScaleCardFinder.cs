using CoatScan.Imaging.Color;
using CoatScan.Imaging.Normalizing;
using CoatScan.Metrics;

namespace CoatScan.Imaging.Cards;

/// <summary>Finds a scale card in a photo and says what a pixel measures there.</summary>
/// <remarks>
/// A card counts only if its code is read, says that it is one of ours, and its modules are found where the homography puts them.
/// Everything else is "no card". A card that was not printed at 100 % gives a wrong scale that no photo can show: the card asks to be
/// checked with a rule.
/// </remarks>
internal static class ScaleCardFinder
{
    // Main cameras of phones: about 26 mm on a frame of 36 mm. Common practice, no source; used for the tilt alone, not for the scale.
    // A photo that was cropped gives a tilt that is some degrees off.
    private const double FocalOfLongerSide = 0.72;

    // The card asks to be printed at 100 % and checked: its line of 100 mm against a rule, which is read to half a millimeter.
    private const double PrintTolerance = 0.005;

    private static readonly (double X, double Y)[] CornersMm =
        [(0, 0), (ScaleCard.WidthMm, 0), (ScaleCard.WidthMm, ScaleCard.HeightMm), (0, ScaleCard.HeightMm)];

    /// <summary>The card; null if none is found.</summary>
    public static CardReading? Find(ReducedPhoto photo)
    {
        // Green has most of the light, the least noise, and full resolution where a camera stores color at half.
        if (CodeReader.Read(photo.Green) is not { } sighting)
        {
            return null;
        }

        var code = CardCode.Of(sighting.Message);
        if (CodeFit.Fit(photo.Green, code, sighting) is not { } place)
        {
            return null;
        }

        double mmPerModule = sighting.Message.CodeSideMm / code.Side;
        PlaneScale scale = place.ScaleOf(mmPerModule, PrintTolerance);
        if (scale.MmPerPxAt(place.Center.X, place.Center.Y) is not { } mmPerPx
            || scale.UncertaintyAt(place.Center.X, place.Center.Y) is not { } uncertainty)
        {
            return null;
        }

        // A card's millimeters to the code's modules.
        var toModules = new Matrix3(
            1 / mmPerModule, 0, -ScaleCard.CodeLeftMm / mmPerModule, 0, 1 / mmPerModule, -ScaleCard.CodeTopMm / mmPerModule, 0, 0, 1);
        Matrix3 fromCard = place.FromModules * toModules;
        double tilt = Tilt(place.FromModules, place.HalfModules, photo.Green.Width, photo.Green.Height);
        return new CardReading(sighting.Message, mmPerPx / photo.OriginalPxPerPx, tilt)
        {
            Scale = scale,
            Uncertainty = uncertainty,
            Gray = GrayPatches.Read(photo, fromCard),
            Corners = [.. CornersMm.Select(corner => PlaneMapping.Map(fromCard, corner.X, corner.Y)).Select(at =>
                ((at.X + 0.5) * photo.OriginalPxPerPx, (at.Y + 0.5) * photo.OriginalPxPerPx))],
        };
    }

    // Off its axis a camera stretches what it sees, away from the middle more than around it. Turning the camera toward the code takes
    // that out; what foreshortening is left is the cosine of the tilt.
    private static double Tilt(in Matrix3 map, double middle, int width, int height)
    {
        double focalPx = FocalOfLongerSide * Math.Max(width, height);
        var (x, y) = PlaneMapping.Map(map, middle, middle);
        double ax = (x - (width / 2.0)) / focalPx;
        double ay = (y - (height / 2.0)) / focalPx;
        double off = Math.Sqrt((ax * ax) + (ay * ay));
        double reach = Math.Sqrt(1 + (off * off));
        var (cos, sin) = off > 0 ? (ax / off, ay / off) : (1, 0);

        // The camera's axes turned so that the third looks at the code: the rows are the new axes.
        var toward = new Matrix3(
            cos / reach, sin / reach, -off / reach,
            -sin, cos, 0,
            ax / reach, ay / reach, 1 / reach);
        var rays = new Matrix3(1 / focalPx, 0, -width / (2 * focalPx), 0, 1 / focalPx, -height / (2 * focalPx), 0, 0, 1);
        var (longest, shortest) = PlaneMapping.Stretch(toward * rays * map, middle, middle);
        return Math.Acos(Math.Min(1, shortest / longest)) * 180 / Math.PI;
    }
}
