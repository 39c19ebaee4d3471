using CoatScan.Imaging.Color;
using CoatScan.Imaging.Normalizing;

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

    /// <summary>The card; null if none is found.</summary>
    public static CardReading? Find(ReducedPhoto photo)
    {
        // Green has most of the light, the least noise, and full resolution where a camera stores color at half.
        if (CodeReader.Read(photo.Green) is not { } sighting)
        {
            return null;
        }

        var code = CardCode.Of(sighting.Message);
        if (CodeFit.Fit(photo.Green, code, sighting) is not { } map)
        {
            return null;
        }

        double middle = code.Side / 2.0;
        var (longest, shortest) = PlaneMapping.Stretch(map, middle, middle);
        double mmPerModule = sighting.Message.CodeSideMm / code.Side;
        double mmPerPx = mmPerModule / Math.Sqrt(longest * shortest) / photo.OriginalPxPerPx;
        return double.IsFinite(mmPerPx) && mmPerPx > 0
            ? new CardReading(sighting.Message, mmPerPx, Tilt(map, middle, photo.Green.Width, photo.Green.Height))
            : null;
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
