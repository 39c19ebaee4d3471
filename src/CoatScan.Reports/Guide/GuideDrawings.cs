namespace CoatScan.Reports;

/// <summary>The diagrams of the photo guide, 320 x 130 units each: the panel seen from the side or from the front, with few lines.</summary>
internal static class GuideDrawings
{
    private const double Width = 320;
    private const double Height = 130;
    private const double Letters = 10;

    public static Drawing Of(GuidePicture picture, SheetWords words) => new(Width, Height, picture switch
    {
        GuidePicture.Context => [.. Context(words)],
        GuidePicture.Middle => [.. Middle(words)],
        GuidePicture.Close => [.. Close(words)],
        GuidePicture.Raking => [.. Raking(words)],
        GuidePicture.Reflection => [.. Reflection(words)],
        GuidePicture.Color => [.. Color(words)],
        _ => throw new ArgumentOutOfRangeException(nameof(picture), picture, null),
    });

    // Front view: the side of a car, the panel in question darker, the frame of the photo around it and its neighbors.
    private static IEnumerable<Shape> Context(SheetWords words)
    {
        yield return Line([(28, 92), (30, 70), (70, 62), (105, 36), (190, 34), (225, 60), (286, 68), (292, 92)], closed: true, thickness: 1.5);
        yield return Line([(108, 92), (106, 62), (114, 42), (152, 40), (152, 92)], closed: true, fill: 0.82);
        yield return Line([(152, 40), (188, 40), (212, 62), (212, 92)]);
        yield return Line([(109, 62), (212, 62)]);
        foreach (double wheel in new[] { 70.0, 246.0 })
        {
            yield return new Ellipse(wheel, 93, 17, 17) { Fill = 1, Thickness = 1.5 };
            yield return new Ellipse(wheel, 93, 8, 8);
        }

        yield return Cross(131, 75);
        yield return Line([(58, 24), (206, 24), (206, 104), (58, 104)], closed: true, dash: 4, thickness: 1.2);
        yield return Say(213, 22, words.DrawContext);
        yield return Say(160, 124, words.DrawContextDistance, centered: true);
    }

    // From the side: the camera square on, the card in the plane of the panel.
    private static IEnumerable<Shape> Middle(SheetWords words)
    {
        foreach (Shape shape in Panel(words))
        {
            yield return shape;
        }

        yield return Line([(100, 90), (132, 90), (132, 94), (100, 94)], closed: true, fill: 0.3);
        yield return Say(88, 84, words.DrawCard, centered: true);
        foreach (Shape shape in Camera(170, 22, words))
        {
            yield return shape;
        }

        yield return Line([(170, 38), (112, 92)], dash: 3);
        yield return Line([(170, 38), (228, 92)], dash: 3);
        yield return Line([(170, 40), (170, 94)], thickness: 0.8);
        yield return Line([(170, 86), (178, 86), (178, 94)], thickness: 0.8);
        yield return Say(240, 58, words.DrawMiddleDistance);
    }

    private static IEnumerable<Shape> Close(SheetWords words)
    {
        foreach (Shape shape in Panel(words))
        {
            yield return shape;
        }

        yield return Line([(118, 90), (152, 90), (152, 94), (118, 94)], closed: true, fill: 0.3);
        yield return Say(96, 84, words.DrawCard, centered: true);
        foreach (Shape shape in Camera(170, 48, words))
        {
            yield return shape;
        }

        yield return Line([(170, 64), (140, 92)], dash: 3);
        yield return Line([(170, 64), (200, 92)], dash: 3);
        yield return Say(212, 80, words.DrawCloseDistance);
        yield return Say(20, 22, words.DrawCloseDetail);
    }

    private static IEnumerable<Shape> Raking(SheetWords words)
    {
        foreach (Shape shape in Panel(words))
        {
            yield return shape;
        }

        foreach (Shape shape in Camera(170, 22, words))
        {
            yield return shape;
        }

        yield return Line([(170, 38), (170, 92)], dash: 3);
        yield return Line([(18, 58), (34, 52), (38, 62), (22, 68)], closed: true, fill: 1, thickness: 1.5);
        foreach (double to in new[] { 150.0, 170, 190 })
        {
            yield return Line([(38, 60), (to, 93)], thickness: 0.8);
        }

        yield return Say(14, 44, words.DrawLamp);
        yield return Say(40, 90, words.DrawRakingAngle);
        yield return Say(212, 60, words.DrawRakingTurn);
    }

    private static IEnumerable<Shape> Reflection(SheetWords words)
    {
        foreach (Shape shape in Panel(words))
        {
            yield return shape;
        }

        foreach (Shape shape in Camera(70, 36, words))
        {
            yield return shape;
        }

        yield return Line([(252, 22), (262, 22), (262, 62), (252, 62)], closed: true, fill: 0.15);
        yield return Say(270, 44, words.DrawTube);
        yield return Line([(72, 52), (160, 93), (252, 42)], dash: 3);
        yield return Say(66, 90, words.DrawReflectionAngle);
    }

    private static IEnumerable<Shape> Color(SheetWords words)
    {
        foreach (Shape shape in Panel(words))
        {
            yield return shape;
        }

        foreach (Shape shape in Camera(170, 40, words))
        {
            yield return shape;
        }

        yield return Line([(170, 56), (140, 92)], dash: 3);
        yield return Line([(170, 56), (200, 92)], dash: 3);
        yield return Line([(112, 90), (136, 90), (136, 94), (112, 94)], closed: true, fill: 0.6);
        yield return Say(84, 84, words.DrawGrayCard, centered: true);
        yield return Line([(30, 26), (24, 22), (30, 14), (44, 16), (54, 8), (72, 10), (80, 18), (92, 18), (94, 26)], closed: true, fill: 0.9);
        yield return Line([(250, 26), (244, 22), (250, 14), (264, 16), (274, 8), (292, 10), (300, 18), (308, 20), (308, 26)], closed: true, fill: 0.9);
        foreach (double x in new[] { 46.0, 66, 86, 258, 278, 298 })
        {
            yield return Line([(x, 32), (x, 62)], thickness: 0.8, dash: 2);
        }

        yield return Say(212, 78, words.DrawColor);
    }

    // The panel cut through, seen from its edge, with the fault on it.
    private static IEnumerable<Shape> Panel(SheetWords words)
    {
        yield return Line([(40, 94), (300, 94), (300, 101), (40, 101)], closed: true, fill: 0.8, thickness: 1.2);
        yield return Line([(158, 94), (164, 90), (170, 94), (176, 90), (182, 94)], closed: true, fill: 0);
        yield return Say(170, 116, words.DrawPanel, centered: true);
    }

    private static IEnumerable<Shape> Camera(double x, double y, SheetWords words)
    {
        yield return Line([(x - 21, y - 9), (x + 21, y - 9), (x + 21, y + 9), (x - 21, y + 9)], closed: true, fill: 1, thickness: 1.5);
        yield return Line([(x - 6, y + 9), (x + 6, y + 9), (x + 6, y + 15), (x - 6, y + 15)], closed: true, fill: 0.3);
        yield return Say(x, y + 3.5, words.DrawCamera, centered: true, size: 8);
    }

    private static Stroke Cross(double x, double y) =>
        new([(x - 4, y - 4), (x + 4, y + 4), (x, y), (x - 4, y + 4), (x + 4, y - 4)]) { Thickness = 2 };

    private static Stroke Line(
        IReadOnlyList<(double, double)> points, bool closed = false, double? fill = null, double thickness = 1, double dash = 0) =>
        new(points, closed) { Fill = fill, Thickness = thickness, Dash = dash };

    private static Lettering Say(double x, double y, string text, bool centered = false, double size = Letters) => new(x, y, size, text, centered);
}
