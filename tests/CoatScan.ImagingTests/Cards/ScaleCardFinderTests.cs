using CoatScan.DemoPanels;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Imaging.Cards;
using CoatScan.Imaging.Normalizing;

namespace CoatScan.ImagingTests.Cards;

public sealed class ScaleCardFinderTests
{
    private const int Scenes = 66;

    // What may be honestly missed: small, shaded, noisy or out of reach of the light.
    private const double MinFoundShare = 0.97;

    [Fact]
    public void Find_scale_and_tilt_are_those_of_the_camera()
    {
        var results = Enumerable.Range(1, Scenes).AsParallel().AsOrdered().Select(number =>
        {
            var scene = CardScene.Draw(number, maxTiltDegrees: 45);
            return (Number: number, Scene: scene, Found: Find(scene.Jpeg()));
        }).ToList();

        Assert.InRange(results.Count(result => result.Found is not null), MinFoundShare * Scenes, Scenes);
        foreach (var (number, scene, found) in results.Where(result => result.Found is not null))
        {
            double error = Math.Abs((found!.MmPerPx / scene.MmPerPx) - 1);
            double limit = scene.TiltDegrees <= 30 ? 0.015 : 0.03;
            Assert.True(error <= limit, $"scene {number}: {100 * error:0.00} % at {scene.TiltDegrees:0} degrees");
            Assert.True(
                Math.Abs(found.TiltDegrees - scene.SightTiltDegrees) < 10,
                $"scene {number}: {found.TiltDegrees:0.0} instead of {scene.SightTiltDegrees:0.0} degrees");
            Assert.Equal(scene.Card.Message, found.Message);
        }
    }

    // The scene knows where its camera sees each place of the card.
    [Theory]
    [InlineData(0)]
    [InlineData(30)]
    [InlineData(45)]
    public void Find_corners_lie_where_the_camera_sees_them(double tiltDegrees)
    {
        var scene = new CardScene { TiltDegrees = tiltDegrees, TiltTowardDegrees = 30, FrameShare = 0.25 };

        CardReading found = Find(scene.Jpeg())!;

        (double X, double Y)[] truth =
        [
            scene.ToPx(0, 0), scene.ToPx(ScaleCard.WidthMm, 0), scene.ToPx(ScaleCard.WidthMm, ScaleCard.HeightMm), scene.ToPx(0, ScaleCard.HeightMm),
        ];
        Assert.Equal(4, found.Corners.Count);
        Assert.All(found.Corners.Zip(truth), one =>
            Assert.InRange(Math.Max(Math.Abs(one.First.X - one.Second.X), Math.Abs(one.First.Y - one.Second.Y)), 0, 4));
    }

    [Fact]
    public void Find_scale_holds_in_the_whole_photo_within_its_uncertainty()
    {
        var within = new List<bool>();
        foreach (int number in Enumerable.Range(1, 12))
        {
            var scene = CardScene.Draw(number, maxTiltDegrees: 35);
            CardReading found = Find(scene.Jpeg())!;
            foreach (var (x, y) in new[] { (200.0, 150.0), (1400.0, 150.0), (200.0, 1050.0), (1400.0, 1050.0), (800.0, 600.0) })
            {
                double error = Math.Abs((found.Scale.MmPerPxAt(x, y)!.Value / scene.MmPerPxAt(x, y)) - 1);
                within.Add(error <= found.Scale.UncertaintyAt(x, y));
            }
        }

        Assert.InRange(within.Count(one => one), 0.95 * within.Count, within.Count);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(45)]
    [InlineData(90)]
    public void Find_lengths_on_a_tilted_panel_are_right_in_every_direction(double towardDegrees)
    {
        var scene = new CardScene { TiltDegrees = 45, TiltTowardDegrees = towardDegrees, FrameShare = 0.2 };
        CardReading found = Find(scene.Jpeg())!;

        // The rule of 100 mm, the bar's height, and a diagonal.
        foreach (var (startX, startY, endX, endY) in new[] { (10.0, 66.0, 110.0, 66.0), (30.0, 10.0, 30.0, 70.0), (10.0, 10.0, 90.0, 70.0) })
        {
            var start = scene.ToPx(startX, startY);
            var end = scene.ToPx(endX, endY);
            double truth = Math.Sqrt(((endX - startX) * (endX - startX)) + ((endY - startY) * (endY - startY)));
            Assert.Equal(truth, found.Scale.LengthMm(start.X, start.Y, end.X, end.Y)!.Value, 0.01 * truth);
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(6)]
    [InlineData(8)]
    public void Find_turned_photo_gives_the_same_scale(int orientation)
    {
        var scene = new CardScene { TiltDegrees = 15 };
        using DecodedPhoto photo = TestPhotos.Decode(scene.Jpeg());
        byte[] rgb = [.. Enumerable.Range(0, photo.StoredHeightPx).SelectMany(y => photo.StoredRow(y).ToArray())];
        using var turned = DecodedPhoto.FromRgb(rgb, photo.StoredWidthPx, photo.StoredHeightPx, orientation);

        CardReading? found = Find(turned);

        if (orientation == 2)
        {
            // A mirrored code is none of ours: who mirrors a photo may have changed it otherwise.
            Assert.Null(found);
        }
        else
        {
            Assert.Equal(scene.MmPerPx, found!.MmPerPx, 0.002 * scene.MmPerPx);
        }
    }

    [Fact]
    public void Find_panels_without_a_card_have_none()
    {
        var photos = VisualClassIds.All.AsParallel().SelectMany(visualClass =>
            Enumerable.Range(1, 12).Select(seed => Draw(visualClass, (ulong)seed)).OfType<DemoPanel>().Take(4)).ToList();

        Assert.Equal(4 * VisualClassIds.All.Count, photos.Count);

        Assert.All(photos, panel =>
        {
            using var photo = DecodedPhoto.FromRgb(panel.Rgb, panel.WidthPx, panel.HeightPx);
            Assert.Null(Find(photo));
        });
    }

    // Null where the scene of the seed hides the fault in every layout.
    private static DemoPanel? Draw(string visualClass, ulong seed)
    {
        try
        {
            return DemoPanelRenderer.Render(visualClass, seed);
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    [Fact]
    public void Find_half_a_card_is_none()
    {
        var scene = new CardScene { FrameShare = 0.3 };
        using DecodedPhoto photo = TestPhotos.Decode(scene.Jpeg());
        byte[] rgb = [.. Enumerable.Range(0, photo.StoredHeightPx).SelectMany(y => photo.StoredRow(y)[..(3 * 560)].ToArray())];
        using var half = DecodedPhoto.FromRgb(rgb, 560, photo.StoredHeightPx);

        Assert.Null(Find(half));
    }

    [Fact]
    public void Normalize_card_gives_the_scale()
    {
        var scene = new CardScene { TiltDegrees = 10, Card = ScaleCard.Of("AB 123", "hood") };

        NormalizedPhoto photo = TestPhotos.Normalize(scene.Jpeg());

        Assert.Equal(ScaleSource.Card, photo.Report.Scale.Source);
        Assert.Equal(scene.MmPerPx, photo.Report.Scale.MmPerPx!.Value, 0.002 * scene.MmPerPx);
        Assert.Equal(scene.MmPerPx * photo.Planes.OriginalPxPerPx, photo.Planes.MmPerPx!.Value, 0.002 * scene.MmPerPx);

        // At the card print and fit; one number for the whole photo also what the tilt does.
        Assert.InRange(photo.Report.Scale.Uncertainty!.Value, 0.005, 0.01);
        Assert.InRange(photo.Planes.ScaleUncertainty!.Value, 0.05, 0.3);
        Assert.Equal(("AB 123", "hood"), (photo.Card!.Message.Vehicle, photo.Card.Message.Panel));
        Assert.DoesNotContain(
            photo.Report.Issues,
            issue => issue.Code is PhotoIssueCode.NoScale or PhotoIssueCode.ScaleConflict or PhotoIssueCode.Oblique);
    }

    [Theory]
    [InlineData(1.03, false)]
    [InlineData(1.1, true)]
    [InlineData(0.9, true)]
    public void Normalize_stated_scale_wins_and_is_compared(double factor, bool conflicts)
    {
        var scene = new CardScene();

        NormalizedPhoto photo = TestPhotos.Normalize(scene.Jpeg(), factor * scene.MmPerPx);

        Assert.Equal(ScaleSource.Caller, photo.Report.Scale.Source);
        Assert.Equal(factor * scene.MmPerPx, photo.Report.Scale.MmPerPx);
        Assert.Equal(factor * scene.MmPerPx, photo.Planes.Scale!.MmPerPxAt(800, 600)!.Value, 0.01 * scene.MmPerPx);
        Assert.True(photo.Planes.ScaleUncertainty >= 0.1);
        Assert.Equal(conflicts, photo.Report.Issues.Any(issue => issue.Code == PhotoIssueCode.ScaleConflict));
    }

    [Fact]
    public void Normalize_slant_is_named()
    {
        NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { TiltDegrees = 42 }.Jpeg());

        Assert.Contains(photo.Report.Issues, issue => issue.Code == PhotoIssueCode.Oblique);
    }

    // Beyond 45 degrees a card may be missed; where it is found, the photo says that it gives no lengths.
    [Fact]
    public void Normalize_steeper_slant_gives_no_lengths()
    {
        int found = 0;
        foreach (double tilt in new[] { 48.0, 50.0, 52.0, 55.0 })
        {
            NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { TiltDegrees = tilt, FrameShare = 0.25 }.Jpeg());
            if (photo.Card is not null)
            {
                found++;
                PhotoIssue issue = Assert.Single(photo.Report.Issues, one => one.Code is PhotoIssueCode.Oblique or PhotoIssueCode.TooOblique);
                Assert.Equal(PhotoIssueCode.TooOblique, issue.Code);
                Assert.Contains("45", issue.Detail, StringComparison.Ordinal);
                Assert.Contains("nothing is said in millimeters", issue.Limits, StringComparison.Ordinal);
            }
        }

        Assert.InRange(found, 1, 4);
    }

    private static CardReading? Find(byte[] jpeg)
    {
        using DecodedPhoto photo = TestPhotos.Decode(jpeg);
        return Find(photo);
    }

    private static CardReading? Find(DecodedPhoto photo) =>
        ScaleCardFinder.Find(AreaReducer.Reduce(photo, 4e6, CancellationToken.None));
}
