using System.Globalization;
using System.Net;
using System.Text;

namespace CoatScan.Training.Reporting.Charts;

/// <summary>A drawing in the making: black, grays and white only, so that it prints on anything. Lengths are in pixels of the drawing.</summary>
internal sealed class SvgPage
{
    private readonly StringBuilder _body = new();
    private readonly double _width;
    private readonly double _height;
    private readonly string _title;

    public SvgPage(double width, double height, string title)
    {
        _width = width;
        _height = height;
        _title = title;
        Text(12, 22, title, 15, weight: 700);
    }

    public void Line(double x1, double y1, double x2, double y2, double widthPx = 1, string ink = "#000", string dashes = "none") =>
        Add($"<line x1=\"{x1:0.##}\" y1=\"{y1:0.##}\" x2=\"{x2:0.##}\" y2=\"{y2:0.##}\" stroke=\"{ink}\" stroke-width=\"{widthPx:0.##}\" stroke-dasharray=\"{dashes}\"/>");

    public void Path(IEnumerable<(double X, double Y)> points, double widthPx = 2) =>
        Add($"<polyline points=\"{string.Join(' ', points.Select(point => FormattableString.Invariant($"{point.X:0.##},{point.Y:0.##}")))}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{widthPx:0.##}\"/>");

    public void Box(double x, double y, double width, double height, string fill, string ink = "none") =>
        Add($"<rect x=\"{x:0.##}\" y=\"{y:0.##}\" width=\"{width:0.##}\" height=\"{height:0.##}\" fill=\"{fill}\" stroke=\"{ink}\"/>");

    public void Dot(double x, double y, double radius) =>
        Add($"<circle cx=\"{x:0.##}\" cy=\"{y:0.##}\" r=\"{radius:0.##}\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"2\"/>");

    /// <param name="x">Where the anchor is.</param>
    /// <param name="y">Base line.</param>
    /// <param name="text">Written as it is.</param>
    /// <param name="size">Height of the letters' em.</param>
    /// <param name="anchor"><c>start</c>, <c>middle</c> or <c>end</c>.</param>
    /// <param name="turn">Degrees clockwise about the anchor.</param>
    /// <param name="ink">Color.</param>
    /// <param name="weight">400 plain, 700 bold.</param>
    public void Text(
        double x, double y, string text, double size = 11, string anchor = "start", double turn = 0, string ink = "#000", int weight = 400) =>
        Add($"<text x=\"{x:0.##}\" y=\"{y:0.##}\" font-size=\"{size:0.##}\" font-weight=\"{weight}\" text-anchor=\"{anchor}\" fill=\"{ink}\" transform=\"rotate({turn:0.##} {x:0.##} {y:0.##})\">{WebUtility.HtmlEncode(text)}</text>");

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"""
        <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_width:0.##} {_height:0.##}" width="{_width:0.##}" height="{_height:0.##}" font-family="sans-serif" role="img" aria-label="{WebUtility.HtmlEncode(_title)}">
        <rect width="100%" height="100%" fill="#fff"/>
        {_body}</svg>

        """);

    private void Add(FormattableString element) => _body.Append(FormattableString.Invariant(element)).Append('\n');
}
