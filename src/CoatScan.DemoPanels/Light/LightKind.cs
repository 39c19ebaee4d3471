namespace CoatScan.DemoPanels.Light;

/// <summary>Where and when the photo was taken, as far as light goes.</summary>
internal enum LightKind
{
    Overcast,
    Sun,
    StripLights,
    Window,
    Softbox,
    Dusk,
    WarmLamp,

    // Those below are drawn for PanelLook.Shifted only.
    RakingLamp,
    StreetLamp,
    CrossedTubes,
    LeafGaps,
    LampRing,
}
