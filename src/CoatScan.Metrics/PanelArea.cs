namespace CoatScan.Metrics;

/// <summary>How much panel a photo shows.</summary>
/// <param name="Mm2">Area on the panel, square millimeters, above 0.</param>
/// <param name="Uncertainty">Relative, 95 % half width.</param>
internal readonly record struct PanelArea(double Mm2, double Uncertainty)
{
    private const int Steps = 12;

    /// <summary>The sum over a grid of the area that each part of the picture takes on the panel; null without a scale.</summary>
    internal static PanelArea? Of(PanelPlanes panel)
    {
        if (panel.MmPerPx is null)
        {
            return null;
        }

        var (sum, doubt) = (0.0, 0.0);
        for (var row = 0; row < Steps; row++)
        {
            for (var column = 0; column < Steps; column++)
            {
                var scale = panel.ScaleAt((column + 0.5) * panel.Width / Steps, (row + 0.5) * panel.Height / Steps)!.Value;
                var part = scale.MmPerPx * scale.MmPerPx;
                sum += part;

                // The scale is off everywhere alike: its doubts add up, they do not average out. An area has twice a length's.
                doubt += part * 2.0 * scale.RelativeUncertainty;
            }
        }

        return new PanelArea(sum * panel.Width * panel.Height / (Steps * Steps), doubt / sum);
    }
}
