using CoatScan.Findings;

namespace CoatScan.Metrics.Zones;

/// <summary>Rust, stains and lost film: the metrics that judge color over areas and share one reduced picture.</summary>
internal static class AreaMetrics
{
    internal static void Measure(
        PanelPlanes panel, double meanLightness, PlaneScope scope, List<Measurement> measurements)
    {
        var scene = ColorScene.Of(panel, scope);
        RustMetrics.Measure(panel, scene, meanLightness, measurements);
        FilmLoss.Measure(panel, scene, scope, meanLightness, measurements);
        scene.GiveBack();
    }
}
