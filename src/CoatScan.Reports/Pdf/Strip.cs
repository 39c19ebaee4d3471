using PdfSharp.Drawing;

namespace CoatScan.Reports;

/// <summary>A piece of a page over the full width that is never cut.</summary>
/// <param name="Height">Height, points.</param>
/// <param name="Draw">Draws it with its left upper corner at the given place.</param>
internal sealed record Strip(double Height, Action<Canvas, double, double> Draw)
{
    /// <summary>Whether a page must not end after it.</summary>
    public bool KeepsWithNext { get; init; }

    /// <summary>What is repeated above it where it begins a page; null for nothing.</summary>
    public Strip? Head { get; init; }

    /// <summary>Empty space; left out at the top of a page.</summary>
    public static Strip Space(double height) => new(height, (_, _, _) => { }) { IsSpace = true };

    /// <summary>Whether it only sets apart what follows from what is above it, and is left out at the top of a page.</summary>
    public bool IsSpace { get; init; }
}

/// <summary>The page being drawn on.</summary>
/// <param name="Graphics">What draws.</param>
/// <param name="Link">Makes an area lead somewhere.</param>
internal sealed record Canvas(XGraphics Graphics, Action<XRect, string> Link);
