using PdfSharp.Drawing;

namespace CoatScan.Reports;

/// <summary>A drawing on a printed page, as vectors over its photo.</summary>
internal static class PdfDrawing
{
    public static Strip Of(Drawing drawing, double width, double mostHeight)
    {
        double scale = Math.Min(width / drawing.Width, mostHeight / drawing.Height);
        return new(drawing.Height * scale, (canvas, x, y) => Draw(canvas.Graphics, drawing, x, y, scale));
    }

    private static void Draw(XGraphics graphics, Drawing drawing, double x, double y, double scale)
    {
        var area = new XRect(x, y, drawing.Width * scale, drawing.Height * scale);
        if (!drawing.Jpeg.IsEmpty)
        {
            using var bytes = new MemoryStream(drawing.Jpeg.ToArray(), 0, drawing.Jpeg.Length, writable: false, publiclyVisible: true);
            using XImage photo = XImage.FromStream(bytes);
            graphics.DrawImage(photo, area);
        }

        XGraphicsState state = graphics.Save();
        graphics.IntersectClip(area);
        graphics.TranslateTransform(x, y);
        foreach (Shape shape in drawing.Shapes)
        {
            Draw(graphics, shape, scale);
        }

        graphics.Restore(state);
        graphics.DrawRectangle(new XPen(PdfText.Ink(0.7), 0.5), area);
    }

    private static void Draw(XGraphics graphics, Shape shape, double scale)
    {
        XPen? pen = shape.Line is { } line ? new XPen(PdfText.Ink(line), shape.Thickness * scale) { LineJoin = XLineJoin.Round } : null;
        if (pen is not null && shape.Dash > 0)
        {
            pen.DashPattern = [shape.Dash / shape.Thickness, shape.Dash / shape.Thickness];
        }

        XBrush? brush = shape.Fill is { } fill ? new XSolidBrush(PdfText.Ink(fill)) : null;
        switch (shape)
        {
            case Stroke stroke:
                XPoint[] points = [.. stroke.Points.Select(point => new XPoint(point.X * scale, point.Y * scale))];
                if (stroke.IsClosed)
                {
                    graphics.DrawPolygon(pen!, brush!, points, XFillMode.Winding);
                }
                else
                {
                    graphics.DrawLines(pen!, points);
                }

                break;
            case Ellipse ellipse:
                graphics.DrawEllipse(
                    pen!,
                    brush!,
                    (ellipse.CenterX - ellipse.RadiusX) * scale,
                    (ellipse.CenterY - ellipse.RadiusY) * scale,
                    2 * ellipse.RadiusX * scale,
                    2 * ellipse.RadiusY * scale);
                break;
            case Circles circles:
                foreach (var (x, y, radius) in circles.Centers)
                {
                    graphics.DrawEllipse(pen!, brush!, (x - radius) * scale, (y - radius) * scale, 2 * radius * scale, 2 * radius * scale);
                }

                break;
            case Lettering text:
                XFont font = SheetFonts.Of(text.Size * scale, strong: true);
                string value = CleanText.Of(text.Value);
                double left = text.IsCentered ? graphics.MeasureString(value, font).Width / 2 : 0;
                graphics.DrawString(value, font, new XSolidBrush(PdfText.Ink(shape.Fill ?? 0)), (text.X * scale) - left, text.Y * scale);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(shape), shape, null);
        }
    }
}
