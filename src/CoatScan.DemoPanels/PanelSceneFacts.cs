namespace CoatScan.DemoPanels;

/// <summary>What is known about a rendered panel besides its pixels. Nothing here was measured from the photo.</summary>
/// <param name="PaintLStar">CIE L* of the paint's own color, D65, [0, 100].</param>
/// <param name="PaintAStar">CIE a* of it.</param>
/// <param name="PaintBStar">CIE b* of it.</param>
/// <param name="Light">Kind of light, for example <c>overcast</c>.</param>
/// <param name="RoughnessUm">Fine rms roughness of the sound film, micrometers, 0 or more.</param>
/// <param name="WavinessAmplitudeUm">Amplitude of the sound film's own waves (rms times the root of 2), micrometers.</param>
/// <param name="WavinessWavelengthMm">Their dominant wavelength, mm.</param>
/// <param name="View">How much of the panel the photo takes in.</param>
/// <param name="HasHardware">Whether seams, fasteners, lettering or trim were laid.</param>
/// <param name="HasSoil">Whether dirt, stains or dust may lie on the paint.</param>
/// <param name="VisibleContrast">
/// 90th percentile over the fault's pixels of the change that the fault makes, in display values before noise, [0, 1];
/// null for photos without a fault.
/// </param>
public sealed record PanelSceneFacts(
    double PaintLStar,
    double PaintAStar,
    double PaintBStar,
    string Light,
    double RoughnessUm,
    double WavinessAmplitudeUm,
    double WavinessWavelengthMm,
    PanelView View,
    bool HasHardware,
    bool HasSoil,
    double? VisibleContrast);
