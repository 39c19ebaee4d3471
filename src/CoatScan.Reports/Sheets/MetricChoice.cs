using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Which of some ninety measurements a person wants to read: those that tell of what the photo shows.</summary>
public static class MetricChoice
{
    // A class less probable than this is not what the photo is about.
    private const double LeastProbability = 0.15;

    // How the count divides among sizes: half a dozen numbers that say less than the count and the diameters.
    private const string SizeClasses = "spot_count_";

    private static readonly string[] Spots = ["spot_count", "spot_density_per_dm2", "spot_diameter", "spot_area_fraction"];
    private static readonly string[] Lines = ["line_density", "line_width", "line_cell_count", "line_direction_spread"];
    private static readonly string[] Waves = ["waviness_edge_", "waviness_contrast_"];
    private static readonly string[] Dull = ["gloss_loss_", "chroma_loss", "two_tone_de00"];

    private static readonly Dictionary<string, string[]> ByClass = new(StringComparer.Ordinal)
    {
        ["stains"] = [.. Spots, "stain_colored_fraction"],
        ["deposits"] = Spots,
        ["rings"] = [.. Spots, "spot_ring_share"],
        ["domes"] = Spots,
        ["craters"] = Spots,
        ["pits"] = Spots,
        ["nibs"] = Spots,
        ["grit"] = [.. Spots, "gloss_loss_"],
        ["chips"] = ["film_loss_fraction", "film_loss_count", "film_loss_large", "spot_count"],
        ["film_loss"] = ["film_loss_fraction", "film_loss_count", "film_loss_large"],
        ["rust"] = ["rust_colored_fraction", "rust_patch_count", "rust_patch_large", "stain_colored_fraction"],
        ["crack_network"] = Lines,
        ["random_cracks"] = Lines,
        ["parallel_scratches"] = [.. Lines, "line_straightness"],
        ["swirl"] = [.. Lines, "line_straightness"],
        ["single_scratch"] = [.. Lines, "line_straightness"],
        ["wavy_texture"] = Waves,
        ["runs"] = Waves,
        ["wrinkles"] = Waves,
        ["dulling"] = Dull,
        ["mottling"] = [.. Dull, "stain_colored_fraction"],
        ["repair_outline"] = [.. Dull, .. Waves],
        ["color_difference"] = Dull,
        ["sound"] = [.. Waves, "gloss_loss_", "spot_count"],
    };

    /// <summary>What the caller asked for, then what belongs to the most probable classes; of two units the one in millimeters.</summary>
    public static IReadOnlyList<Measurement> Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        string[] starts =
        [
            "color_difference_de00",
            "texture_",
            .. finding.VisualClasses
                .Where(one => one.Probability >= LeastProbability)
                .OrderByDescending(one => one.Probability)
                .SelectMany(one => ByClass.GetValueOrDefault(one.VisualClass, [])),
        ];
        var chosen = starts
            .SelectMany(start => finding.Measurements.Where(one => one.Metric.StartsWith(start, StringComparison.Ordinal)))
            .Where(one => !one.Metric.StartsWith(SizeClasses, StringComparison.Ordinal))
            .DistinctBy(one => (one.Metric, one.PhotoIndex))
            .ToList();
        return [.. chosen.Where(one => !IsOtherUnit(one, chosen))];
    }

    // Pixels where millimeters are known, millimeters where no scale is: the twin says the same, or says it better.
    private static bool IsOtherUnit(Measurement one, List<Measurement> chosen)
    {
        var hasMm = chosen.Exists(other => other.Value is not null && IsMm(other.Metric));
        return hasMm ? IsPx(one, chosen) : IsMm(one.Metric) && one.Value is null && chosen.Exists(other => other.Value is not null);
    }

    private static bool IsMm(string metric) => metric.EndsWith("_mm", StringComparison.Ordinal);

    private static bool IsPx(Measurement one, List<Measurement> chosen) =>
        one.Metric.EndsWith("_px", StringComparison.Ordinal)
        || chosen.Exists(other => other.Metric == one.Metric + "_per_mm" && other.Value is not null);
}
