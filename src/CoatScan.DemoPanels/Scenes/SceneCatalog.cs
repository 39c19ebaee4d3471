using CoatScan.DemoPanels.Light;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Scenes;

/// <summary>Pictures that are no painted vehicle panel, and what lies behind a panel that ends inside the picture.</summary>
internal static class SceneCatalog
{
    private static readonly Action<Canvas>[] Seen =
    [
        Nature.PaintFoliage, Nature.PaintSky, Nature.PaintFruit, Materials.PaintBricks, Materials.PaintWood, Materials.PaintCloth,
        Materials.PaintStones, Things.PaintPage, Things.PaintScreen, Things.PaintFace, Things.PaintPlate,
        Textures.PaintStrokes, Textures.PaintHeap, Textures.PaintStripes, Textures.PaintStatic,
        Outdoors.PaintLandscape, Outdoors.PaintBlossom, Outdoors.PaintRoom,
    ];

    private static readonly Action<Canvas>[] Drawn =
    [
        Drawings.PaintRibbons, Drawings.PaintShapes, Drawings.PaintGlow, Drawings.PaintEmblem, Drawings.PaintHills, Drawings.PaintFacets,
    ];

    private static readonly Action<Canvas>[] Backdrops =
    [
        Nature.PaintFoliage, Nature.PaintSky, Materials.PaintBricks, Materials.PaintWood, Materials.PaintCloth, Materials.PaintStones,
        Materials.PaintStones,
    ];

    /// <summary>One picture; a drawn one was made on a computer and seen by no camera.</summary>
    public static (LinearImage Image, bool IsDrawn) PaintScene(PanelRandom random, int width, int height)
    {
        var isDrawn = random.Whole(0, Seen.Length + Drawn.Length) >= Seen.Length;
        return (Paint(random, width, height, isDrawn ? Drawn : Seen), isDrawn);
    }

    /// <summary>Half as wide and high as the picture: what lies behind is out of focus more often than not.</summary>
    public static LinearImage PaintBackdrop(PanelRandom random, int width, int height)
    {
        var image = Paint(random, (width + 1) / 2, (height + 1) / 2, Backdrops);
        var blur = random.Chance(0.6f) ? random.LogUniform(0.5f, 5f) * Math.Min(width, height) / 480f : 0f;
        Blur.InPlace(image.Red, blur);
        Blur.InPlace(image.Green, blur);
        Blur.InPlace(image.Blue, blur);
        return image;
    }

    private static LinearImage Paint(PanelRandom random, int width, int height, Action<Canvas>[] choices)
    {
        var canvas = new Canvas(new LinearImage(width, height), random);
        choices[random.Whole(0, choices.Length)](canvas);
        canvas.LightUnevenly();
        return canvas.Image;
    }
}
