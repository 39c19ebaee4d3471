using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Scenes;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanelsTests;

public sealed class SceneTests
{
    private const int SidePx = 160;

    public static TheoryData<string> TexturePainters => ["strokes", "heap", "stripes", "static", "facets"];

    public static TheoryData<string> OtherPainters => ["ribbons", "shapes", "glow", "emblem", "hills", "landscape", "blossom", "room"];

    [Theory]
    [MemberData(nameof(TexturePainters))]
    public void Paint_fills_every_quarter_with_tones_and_repeats_by_seed(string painter)
    {
        for (var seed = 1UL; seed <= 4; seed++)
        {
            var tones = Tones(painter, seed);

            Assert.Equal(tones, Tones(painter, seed));
            Assert.NotEqual(tones, Tones(painter, seed + 100));
            for (var quarter = 0; quarter < 4; quarter++)
            {
                float[] part = [.. tones.Where((_, at) => ((at / SidePx * 2 / SidePx * 2) + (at % SidePx * 2 / SidePx)) == quarter)];
                Assert.Equal(SidePx * SidePx / 4, part.Length);
                Assert.True(part.Max() - part.Min() > 0.01f, $"seed {seed}, quarter {quarter}: {part.Min()} to {part.Max()}");
            }
        }
    }

    [Theory]
    [MemberData(nameof(OtherPainters))]
    public void Paint_is_no_even_tone_and_repeats_by_seed(string painter)
    {
        for (var seed = 1UL; seed <= 12; seed++)
        {
            var tones = Tones(painter, seed);

            Assert.Equal(tones, Tones(painter, seed));
            Assert.NotEqual(tones, Tones(painter, seed + 100));
            Assert.All(tones, tone => Assert.InRange(tone, 0f, 2f));
            Assert.True(tones.Max() - tones.Min() > 0.05f, $"seed {seed}: {tones.Min()} to {tones.Max()}");
        }
    }

    private static float[] Tones(string painter, ulong seed)
    {
        var canvas = new Canvas(new LinearImage(SidePx, SidePx), new PanelRandom(seed));
        Action<Canvas> paint = painter switch
        {
            "strokes" => Textures.PaintStrokes,
            "heap" => Textures.PaintHeap,
            "stripes" => Textures.PaintStripes,
            "static" => Textures.PaintStatic,
            "ribbons" => Drawings.PaintRibbons,
            "shapes" => Drawings.PaintShapes,
            "glow" => Drawings.PaintGlow,
            "emblem" => Drawings.PaintEmblem,
            "hills" => Drawings.PaintHills,
            "facets" => Drawings.PaintFacets,
            "landscape" => Outdoors.PaintLandscape,
            "blossom" => Outdoors.PaintBlossom,
            _ => Outdoors.PaintRoom,
        };
        paint(canvas);
        return [.. Enumerable.Range(0, SidePx * SidePx).Select(at => Tone(canvas.Image[at]))];
    }

    private static float Tone(Rgb color) => (color.R + color.G + color.B) / 3f;
}
