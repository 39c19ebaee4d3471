namespace CoatScan.Reports;

/// <summary>Shapes on an area, over a photo or on blank paper. Later shapes lie over earlier ones.</summary>
/// <param name="Width">Width of the area, in the drawing's own unit.</param>
/// <param name="Height">Height of the area, in the same unit.</param>
/// <param name="Shapes">What is drawn.</param>
public sealed record Drawing(double Width, double Height, IReadOnlyList<Shape> Shapes)
{
    /// <summary>A JPEG that fills the area; empty for blank paper.</summary>
    public ReadOnlyMemory<byte> Jpeg { get; init; } = ReadOnlyMemory<byte>.Empty;

    /// <summary>Address of the picture that fills the area, for a page that may load it; empty where <see cref="Jpeg"/> is inside.</summary>
    public string Href { get; init; } = "";

    /// <summary>Names of the layers of the shapes, as a reader may switch them on and off; empty for a drawing of one piece.</summary>
    public IReadOnlyList<string> Layers { get; init; } = [];
}

/// <summary>One shape. Ink is gray only: nothing may rest on color.</summary>
public abstract record Shape
{
    private protected Shape()
    {
    }

    /// <summary>Gray of the line, 0 black to 1 white; null for none.</summary>
    public double? Line { get; init; } = 0;

    /// <summary>Gray of the inside, 0 black to 1 white; null for none.</summary>
    public double? Fill { get; init; }

    /// <summary>Thickness of the line.</summary>
    public double Thickness { get; init; } = 1;

    /// <summary>Index of its layer in <see cref="Drawing.Layers"/>; null where it is always shown.</summary>
    public int? Layer { get; init; }

    /// <summary>Length of dashes and of the gaps between them; 0 for a whole line.</summary>
    public double Dash { get; init; }
}

/// <summary>A polyline, or a polygon where it is closed.</summary>
/// <param name="Points">Its corners.</param>
/// <param name="IsClosed">Whether the last leads back to the first.</param>
public sealed record Stroke(IReadOnlyList<(double X, double Y)> Points, bool IsClosed = false) : Shape;

/// <summary>An ellipse.</summary>
/// <param name="CenterX">Center across.</param>
/// <param name="CenterY">Center down.</param>
/// <param name="RadiusX">Radius across.</param>
/// <param name="RadiusY">Radius down.</param>
public sealed record Ellipse(double CenterX, double CenterY, double RadiusX, double RadiusY) : Shape;

/// <summary>Circles of one look: as one shape, hundreds of them weigh little on a page.</summary>
/// <param name="Centers">Centers and radii.</param>
public sealed record Circles(IReadOnlyList<(double X, double Y, double Radius)> Centers) : Shape;

/// <summary>A line of text; its gray is <see cref="Shape.Fill"/>, black where that is null.</summary>
/// <param name="X">Where it is held, across.</param>
/// <param name="Y">Its base line.</param>
/// <param name="Size">Height of the letters' square.</param>
/// <param name="Value">The text.</param>
/// <param name="IsCentered">Whether it is held at its middle rather than at its start.</param>
public sealed record Lettering(double X, double Y, double Size, string Value, bool IsCentered = false) : Shape;
