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
    /// <param name="subject">The finding with its pictures.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="isSmall">Whether the captions stand below small pictures: they say what and how sure, and <see cref="Notes"/> the rest.</param>
    public static IEnumerable<Figure> All(FindingSubject subject, SheetWords words, bool isSmall = false)
    {
        for (int index = 0; index < subject.Finding.Photos.Count; index++)
        {
            if (subject.Picture(index) is { } picture)
            {
                yield return Of(subject.Finding, index, picture, words, isSmall);
            }
        }
    }

    /// <summary>What small captions leave out: which photos show nothing outlined, and what each class was checked on.</summary>
    public static IEnumerable<Block> Notes(FindingSubject subject, SheetWords words)
    {
        Finding finding = subject.Finding;
        List<int> with = [.. Enumerable.Range(0, finding.Photos.Count).Where(index => subject.Picture(index) is not null)];
        List<string> bare = [.. with.Where(index => Shown(finding, index).Count == 0).Select(index => (index + 1).ToString(CultureInfo.InvariantCulture))];
        List<string> notes = [.. with
            .SelectMany(index => Shown(finding, index))
            .Select(one => one.Class)
            .DistinctBy(one => one.VisualClass)
            .Where(one => one.Check is not null)
            .Select(one => $"{Phrases.Capital(words.VisualClass(one.VisualClass))}: {Check(one.Check!, words)}.")];
        if (bare.Count > 0)
        {
            notes.Insert(0, Phrases.Capital(words.Fill(bare.Count == 1 ? words.PhotoNumber : words.PhotoNumbers, string.Join(", ", bare)))
                + ": " + words.CaptionNothingOutlined);
        }

        return notes.Count == 0 ? [] : [new Paragraph(Tone.Small, string.Join(" ", notes))];
    }

    private static List<(VisualClassShare Class, Region Region)> Shown(Finding finding, int index) =>
    [
        .. finding.VisualClasses
            .Where(one => one.Probability >= WorthShowing || one.BesideProbability is not null)
            .SelectMany(one => one.Regions.Where(region => region.PhotoIndex == index).Select(region => (one, region))),
    ];

    private static Figure Of(Finding finding, int index, SheetPhoto picture, SheetWords words, bool isSmall)
    {
        PhotoReport photo = finding.Photos[index];
        var shown = Shown(finding, index);
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
            shapes.AddRange(Rounds(photo.Spots, side).Select(shape => shape with { Layer = names.Count }));
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
            var bar = ScaleBar.Of(mmPerPx, picture.WidthPx, picture.HeightPx, letters, words);
            shapes.AddRange(bar.Shapes.Select(shape => shape with { Layer = names.Count }));
            names.Add(words.ScaleBar);
            scale = words.Fill(words.CaptionScale, bar.Label);
        }

        var groups = shown.Select((one, at) => (one.Class, one.Region, Number: at + 1)).GroupBy(one => one.Class.VisualClass).ToList();
        string what = string.Join("; ", groups.Select(group => Key([.. group.Select(one => (one.Number, one.Region))], group.First().Class, words)));
        string brief = string.Join("; ", groups.Select(group => Brief([.. group.Select(one => one.Number)], group.First().Class, words)));
        string name = finding.Photos.Count > 1
            ? words.Fill(words.CaptionPhoto, index + 1)
            : words.CaptionOnlyPhoto;
        string rest = string.Join(" ", new[]
        {
            left > 0 ? words.Fill(words.CaptionMoreRegions, left) : "",
            hasSpots ? SpotCaption(photo, words) : "",
            string.Join(" ", photo.Outlines.Select(one => one.Kind).Distinct().Select(words.OutlineCaption)),
            scale,
        }.Where(one => one.Length > 0));
        string full = $"{name} {(what.Length > 0 ? what + "." : words.CaptionNothingOutlined)} {rest}".TrimEnd();
        return new(
            new Drawing(picture.WidthPx, picture.HeightPx, shapes)
            {
                Jpeg = picture.Jpeg,
                Href = picture.Href,
                Layers = names,
            },
            full,
            isSmall ? $"{name} {(brief.Length > 0 ? brief + "." : "")} {rest}".Replace("  ", " ", StringComparison.Ordinal).TrimEnd() : full);
    }

    private static string Key(IReadOnlyList<(int Number, Region Region)> numbered, VisualClassShare share, SheetWords words)
    {
        string numbers = string.Join(", ", numbered.Select(one => one.Region is { WidthMm: { } width, HeightMm: { } height }
            ? string.Create(CultureInfo.InvariantCulture, $"{one.Number} ({width:0} x {height:0} mm)")
            : one.Number.ToString(CultureInfo.InvariantCulture)));
        string key = words.Fill(
            share.BesideProbability is null ? words.CaptionRegions : words.CaptionBesideRegions,
            numbers, words.VisualClass(share.VisualClass), words.Percent(share.BesideProbability ?? share.Probability),
            words.Percent(share.AreaFraction));
        return share.Check is { } check ? $"{key} ({Check(check, words)})" : key;
    }

    private static string Brief(IReadOnlyList<int> numbers, VisualClassShare share, SheetWords words) =>
        $"{string.Join(", ", numbers)}: {words.VisualClass(share.VisualClass)} {words.Percent(share.BesideProbability ?? share.Probability)}";

    private static string Check(ClassCheck check, SheetWords words) => check is { Basis: ClassCheckBasis.RealPhotos, Recall: { } recall }
        ? words.Fill(words.CheckedOnRealPhotos, check.Photos, words.Percent(recall))
        : words.CheckedOnRenderedOnly;

    private static string SpotCaption(PhotoReport photo, SheetWords words) => photo.SpotsLeftOut > 0
        ? words.Fill(words.CaptionLargestSpots, photo.Spots.Count + photo.SpotsLeftOut, photo.Spots.Count)
        : words.Fill(words.CaptionSpots, photo.Spots.Count);

    // Wider than the spot, so that it stays to be seen inside.
    private static IEnumerable<Shape> Rounds(IReadOnlyList<SpotMark> spots, double side)
    {
        double line = side * LinePart * 0.6;
        List<(double, double, double)> rounds =
            [.. spots.Select(spot => (spot.CenterXPx, spot.CenterYPx, (spot.DiameterPx * 0.7) + (2 * line)))];
        yield return new Circles(rounds) { Line = 1, Thickness = 2.2 * line };
        yield return new Circles(rounds) { Line = 0, Thickness = line };
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
