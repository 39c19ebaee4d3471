using CoatScan.Imaging;
using CoatScan.Imaging.Cards;
using CoatScan.Imaging.Normalizing;

namespace CoatScan.ImagingTests.Cards;

public sealed class ScaleCardFinderTests(ITestOutputHelper output)
{
    private const int Scenes = 12;

    [Fact]
    public void Find_scenes()
    {
        var results = Enumerable.Range(1, Scenes).AsParallel().AsOrdered().Select(number =>
        {
            var scene = CardScene.Draw(number, 45);
            return (Number: number, Scene: scene, Found: Find(scene.Jpeg()));
        }).ToList();
        foreach (var (number, scene, found) in results)
        {
            output.WriteLine(found is null ? $"{number} MISS tilt {scene.TiltDegrees:0} share {scene.FrameShare:0.000} shade {scene.Shade:0.00} blur {scene.BlurPx:0.00} noise {scene.NoiseCodes:0.0} q {scene.JpegQuality} exp {scene.Exposure:0.00} text {scene.Card.Message.ToText()}"
                : $"{number} err {100 * ((found.MmPerPx / scene.MmPerPx) - 1):0.000} % tilt {scene.TiltDegrees:0.0} found {found.TiltDegrees:0.0} share {scene.FrameShare:0.000}");
        }
    }

    private static CardReading? Find(byte[] jpeg)
    {
        using DecodedPhoto photo = TestPhotos.Decode(jpeg);
        return ScaleCardFinder.Find(AreaReducer.Reduce(photo, 4e6, TestContext.Current.CancellationToken));
    }
}
