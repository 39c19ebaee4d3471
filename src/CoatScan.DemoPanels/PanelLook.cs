namespace CoatScan.DemoPanels;

/// <summary>Where the settings of a scene are drawn from.</summary>
public enum PanelLook
{
    /// <summary>The paints, lights, cameras and things that panels for training are drawn with.</summary>
    Usual,

    /// <summary>
    /// Paints, lights, cameras and things from outside the usual ranges: for asking how a classifier does on what it never saw. Nothing is
    /// to be trained or calibrated on it.
    /// </summary>
    Shifted,
}
