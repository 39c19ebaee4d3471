using System.Globalization;

namespace CoatScan.Reports;

/// <summary>A drawing as inline SVG, with its photo inside.</summary>
internal static class SvgWriter
{
    public static void Write(Markup to, Drawing drawing, string alternative)
    {
        to.Open(
            "svg",
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {drawing.Width:0.##} {drawing.Height:0.##}")),
            ("role", "img"),
            ("aria-label", alternative));
        to.Element("title", alternative);
        if (!drawing.Jpeg.IsEmpty || drawing.Href.Length > 0)
        {
            to.Void(
                "image",
                ("href", drawing.Href.Length > 0 ? drawing.Href : "data:image/jpeg;base64," + Convert.ToBase64String(drawing.Jpeg.Span)),
                ("width", Number(drawing.Width)),
                ("height", Number(drawing.Height)),
                ("preserveAspectRatio", "none"));
        }

        foreach (Shape shape in drawing.Shapes)
        {
            Write(to, shape);
        }

        to.Close("svg");
    }

    private static void Write(Markup to, Shape shape)
    {
        switch (shape)
        {
            case Stroke { IsClosed: true } closed:
                to.Void("polygon", [("points", Points(closed)), .. Look(shape)]);
                break;
            case Stroke open:
                to.Void("polyline", [("points", Points(open)), .. Look(shape)]);
                break;
            case Ellipse ellipse:
                to.Void(
                    "ellipse",
                    [
                        ("cx", Number(ellipse.CenterX)), ("cy", Number(ellipse.CenterY)),
                        ("rx", Number(ellipse.RadiusX)), ("ry", Number(ellipse.RadiusY)),
                        .. Look(shape),
                    ]);
                break;
            case Circles circles:
                to.Void("path", [("d", string.Concat(circles.Centers.Select(Circle))), .. Look(shape)]);
                break;
            case Lettering text:
                to.Element(
                    "text",
                    text.Value,
                    ("x", Number(text.X)),
                    ("y", Number(text.Y)),
                    ("font-size", Number(text.Size)),
                    ("text-anchor", text.IsCentered ? "middle" : "start"),
                    ("fill", Gray(text.Fill ?? 0)),
                    ("class", Layer(shape)));
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(shape), shape, null);
        }
    }

    private static IEnumerable<(string, string)> Look(Shape shape)
    {
        yield return ("fill", shape.Fill is { } fill ? Gray(fill) : "none");
        yield return ("stroke", shape.Line is { } line ? Gray(line) : "none");
        yield return ("stroke-width", Number(shape.Thickness));
        yield return ("stroke-linejoin", "round");
        yield return ("class", Layer(shape));
        if (shape.Dash > 0)
        {
            yield return ("stroke-dasharray", Number(shape.Dash));
        }
    }

    private static string Layer(Shape shape) =>
        shape.Layer is { } layer ? string.Create(CultureInfo.InvariantCulture, $"layer-{layer}") : "";

    private static string Points(Stroke stroke) =>
        string.Join(' ', stroke.Points.Select(point => $"{Number(point.X)},{Number(point.Y)}"));

    // Two half circles, from the left end and back to it.
    private static string Circle((double X, double Y, double Radius) one)
    {
        string radius = Short(one.Radius);
        string across = Short(2 * one.Radius);
        return $"M{Short(one.X - one.Radius)} {Short(one.Y)}a{radius} {radius} 0 1 0 {across} 0a{radius} {radius} 0 1 0-{across} 0";
    }

    // A tenth of a photo's pixel is finer than any print.
    private static string Short(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    private static string Gray(double gray)
    {
        int level = (int)Math.Round(255 * Math.Clamp(gray, 0, 1));
        return string.Create(CultureInfo.InvariantCulture, $"#{level:x2}{level:x2}{level:x2}");
    }

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
