using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>A photo with numbered outlines of what shows on it, and a scale bar where the scale is known.</summary>
internal static class PhotoFigure
{
    private const double WorthShowing = 0.1;
    private const int MostRegions = 9;
    private const string SpotCount = "spot_count";

    // Sizes of what is drawn, as parts of the photo's longer side.
    private const double LinePart = 0.0035;
    private const double NumberPart = 0.034;

    // Several photos are printed smaller, and their numbers must still be read.
    private const int ManyPhotos = 3;
    private const double LargerNumbers = 1.6;

    /// <summary>One figure for each photo whose picture is at hand.</summary>
    public static IEnumerable<Figure> All(FindingSubject subject, SheetWords words)
    {
        for (int index = 0; index < subject.Finding.Photos.Count; index++)
        {
            if (subject.Picture(index) is { } picture)
            {
                yield return Of(subject.Finding, index, picture, words);
            }
        }
    }

    private static Figure Of(Finding finding, int index, SheetPhoto picture, SheetWords words)
    {
        PhotoReport photo = finding.Photos[index];
        var shown = finding.VisualClasses
            .Where(one => one.Probability >= WorthShowing || one.BesideProbability is not null)
            .SelectMany(one => one.Regions.Where(region => region.PhotoIndex == index).Select(region => (Class: one, Region: region)))
            .ToList();
        int left = Math.Max(0, shown.Count - MostRegions);
        shown = [.. shown.Take(MostRegions)];
        double side = Math.Max(picture.WidthPx, picture.HeightPx);
        double letters = side * NumberPart * (finding.Photos.Count < ManyPhotos ? 1 : LargerNumbers);
        var shapes = new List<Shape>();
        List<string> layers = [.. shown.Select(one => one.Class.VisualClass).Distinct()];
        for (int number = 1; number <= shown.Count; number++)
        {
            int layer = layers.IndexOf(shown[number - 1].Class.VisualClass);
            shapes.AddRange(Outline(shown[number - 1].Region, number, side, letters, picture).Select(shape => shape with { Layer = layer }));
        }

        // Only where the finding speaks of spots: on a scratched panel they would be noise.
        bool hasSpots = photo.Spots.Count > 0 && MetricChoice.Of(finding).Any(one => one.Metric == SpotCount && one.PhotoIndex == index && one.Value > 0);
        List<string> names = [.. layers.Select(words.VisualClass)];
        if (hasSpots)
        {
            shapes.AddRange(photo.Spots.SelectMany(spot => Circle(spot, side)).Select(shape => shape with { Layer = names.Count }));
            names.Add(words.SpotLayer);
        }

        foreach (var (kind, lines) in photo.Outlines.GroupBy(one => one.Kind).Select(group => (group.Key, group.ToList())))
        {
            shapes.AddRange(lines.SelectMany(line => Line(line, side)).Select(shape => shape with { Layer = names.Count }));
            names.Add(words.OutlineLayer(kind));
        }

        string scale = "";
        if (photo.Scale.MmPerPx is { } mmPerPx)
        {
            var bar = ScaleBar.Of(mmPerPx, picture.WidthPx, picture.HeightPx, letters);
            shapes.AddRange(bar.Shapes.Select(shape => shape with { Layer = names.Count }));
            names.Add(words.ScaleBar);
            scale = SheetWords.Fill(words.CaptionScale, bar.Label);
        }

        string what = string.Join("; ", shown
            .Select((one, at) => (one.Class, one.Region, Number: at + 1))
            .GroupBy(one => one.Class.VisualClass)
            .Select(group => Key([.. group.Select(one => (one.Number, one.Region))], group.First().Class, words)));
        string name = finding.Photos.Count > 1
            ? SheetWords.Fill(words.CaptionPhoto, index + 1)
            : words.CaptionOnlyPhoto;
        string caption = string.Join(" ", new[]
        {
            name,
            what.Length > 0 ? what + "." : words.CaptionNothingOutlined,
            left > 0 ? SheetWords.Fill(words.CaptionMoreRegions, left) : "",
            hasSpots ? SheetWords.Fill(words.CaptionSpots, photo.Spots.Count) : "",
            string.Join(" ", photo.Outlines.Select(one => one.Kind).Distinct().Select(words.OutlineCaption)),
            scale,
        }.Where(one => one.Length > 0));
        return new(
            new Drawing(picture.WidthPx, picture.HeightPx, shapes)
            {
                Jpeg = picture.Jpeg,
                Href = picture.Href,
                Layers = names,
            },
            caption,
            caption);
    }

    private static string Key(IReadOnlyList<(int Number, Region Region)> numbered, VisualClassShare share, SheetWords words)
    {
        string numbers = string.Join(", ", numbered.Select(one => one.Region is { WidthMm: { } width, HeightMm: { } height }
            ? string.Create(CultureInfo.InvariantCulture, $"{one.Number} ({width:0} x {height:0} mm)")
            : one.Number.ToString(CultureInfo.InvariantCulture)));
        string key = SheetWords.Fill(
            share.BesideProbability is null ? words.CaptionRegions : words.CaptionBesideRegions,
            numbers, words.VisualClass(share.VisualClass), words.Percent(share.BesideProbability ?? share.Probability),
            words.Percent(share.AreaFraction));
        return share.Check switch
        {
            null => key,
            { Basis: ClassCheckBasis.RealPhotos, Recall: { } recall } =>
                $"{key} ({SheetWords.Fill(words.CheckedOnRealPhotos, share.Check.Photos, words.Percent(recall))})",
            _ => $"{key} ({words.CheckedOnRenderedOnly})",
        };
    }

    // Wider than the spot, so that it stays to be seen inside.
    private static IEnumerable<Shape> Circle(SpotMark spot, double side)
    {
        double line = side * LinePart * 0.6;
        double radius = (spot.DiameterPx * 0.7) + (2 * line);
        yield return new Ellipse(spot.CenterXPx, spot.CenterYPx, radius, radius) { Line = 1, Thickness = 2.2 * line };
        yield return new Ellipse(spot.CenterXPx, spot.CenterYPx, radius, radius) { Line = 0, Thickness = line };
    }

    // Dashes tell these from the outlines of what is wrong, in gray too.
    private static IEnumerable<Shape> Line(PhotoOutline outline, double side)
    {
        double line = side * LinePart * 0.8;
        (double, double)[] points = [.. outline.Points.Select(point => (point.XPx, point.YPx))];
        bool isClosed = outline.Kind == OutlineKind.ScaleCard;
        yield return new Stroke(points, isClosed) { Line = 1, Thickness = 2.2 * line };
        yield return new Stroke(points, isClosed) { Line = 0, Thickness = line, Dash = 5 * line };
    }

    // A dark line on a light one is seen on any paint, in color and in gray.
    private static IEnumerable<Shape> Outline(Region region, int number, double side, double letters, SheetPhoto picture)
    {
        double line = side * LinePart;
        double radius = letters / 2 * 1.25;
        double left = Math.Max(region.StartXPx, line);
        double top = Math.Max(region.StartYPx, line);
        double right = Math.Min(region.EndXPx, picture.WidthPx - line);
        double bottom = Math.Min(region.EndYPx, picture.HeightPx - line);
        (double, double)[] corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
        yield return new Stroke(corners, IsClosed: true) { Line = 1, Thickness = 2.2 * line };
        yield return new Stroke(corners, IsClosed: true) { Line = 0, Thickness = line };
        double x = Math.Min(left + radius + line, picture.WidthPx - radius);
        double y = Math.Min(top + radius + line, picture.HeightPx - radius);
        yield return new Ellipse(x, y, radius, radius) { Line = 1, Fill = 0, Thickness = line };
        string label = number.ToString(CultureInfo.InvariantCulture);
        yield return new Lettering(x, y + (letters * 0.36), letters, label, IsCentered: true) { Fill = 1 };
    }
}
