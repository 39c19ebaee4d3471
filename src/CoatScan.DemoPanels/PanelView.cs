namespace CoatScan.DemoPanels;

/// <summary>How much of a panel a photo takes in.</summary>
public enum PanelView
{
    /// <summary>Drawn from the seed.</summary>
    Any,

    /// <summary>Paint from edge to edge of the picture.</summary>
    CloseUp,

    /// <summary>One edge of the panel in the picture, something else beyond it.</summary>
    OneEdge,

    /// <summary>The whole panel before a background.</summary>
    WholePanel,
}
