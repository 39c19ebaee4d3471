namespace CoatScan.DemoPanels;

/// <summary>What to hold fixed when a demo panel is rendered; everything else is drawn from the seed.</summary>
public sealed record DemoPanelOptions
{
    /// <summary>Width of the photo, pixels, [160, 4096].</summary>
    public int WidthPx { get; init; } = 640;

    /// <summary>Height of the photo, pixels, [160, 4096].</summary>
    public int HeightPx { get; init; } = 480;

    /// <summary>Scale before perspective, mm per pixel, [0.01, 10]; null draws it.</summary>
    public double? MmPerPx { get; init; }

    /// <summary>How much of the panel is in the picture.</summary>
    public PanelView View { get; init; } = PanelView.Any;

    /// <summary>Where paint, light, camera and clutter are drawn from.</summary>
    public PanelLook Look { get; init; } = PanelLook.Usual;

    /// <summary>A second fault on the same panel, one of <see cref="VisualClassIds.All"/> other than the first; null for none.</summary>
    public string? SecondClass { get; init; }
}
