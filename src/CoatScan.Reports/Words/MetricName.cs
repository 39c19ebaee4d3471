using System.Text.RegularExpressions;

namespace CoatScan.Reports;

/// <summary>A metric's id as words: <c>waviness_edge_0_6_to_1_2_mm</c> is "waviness by reflected edge, 0.6 to 1.2
/// mm".</summary>
public static partial class MetricName
{
    /// <summary>The name in words, with its lengths as numbers.</summary>
    public static string Of(string metric)
    {
        ArgumentNullException.ThrowIfNull(metric);
        return metric switch
        {
            "panel_l" => "panel L*",
            "panel_a" => "panel a*",
            "panel_b" => "panel b*",
            "color_difference_de00" => "color difference of the zones (CIEDE2000)",
            "color_difference_l" => "L* of the second zone less the first",
            "color_difference_a" => "a* of the second zone less the first",
            "color_difference_b" => "b* of the second zone less the first",
            "color_difference_c" => "chroma of the second zone less the first",
            "texture_contrast_ratio" => "strength of texture, second zone over the first (1 alike)",
            "texture_correlation_difference" => "grain of the second zone against the first (below 0 finer)",
            "texture_uniform_difference" => "smoothness of texture, second zone less the first (below 0 grittier)",
            "two_tone_de00" => "difference of the two tones found (CIEDE2000)",
            "spot_apart_in_row_count" => "fasteners in rows, not counted as spots",
            "rust_colored_fraction" => "area with the color of rust",
            "stain_colored_fraction" => "area with a colored stain",
            "rust_patch_count" => "number of rust patches",
            "rust_patch_large" => "large rust patches",
            "film_loss_fraction" => "area without paint",
            "film_loss_count" => "number of places without paint",
            "film_loss_large" => "large places without paint",
            "spot_area_fraction" => "area of spots",
            "spot_diameter_large" => "diameter of large spots",
            _ when metric.EndsWith("_large_px", StringComparison.Ordinal) || metric.EndsWith("_large_mm", StringComparison.Ordinal) => $"{Of(metric[..^3])} {metric[^2..]}",
            "spot_apart_in_head_count" => "marks on heads of fasteners, not counted as spots",
            "spot_apart_on_line_count" => "marks on a seam or another line, not counted as spots",
            "line_area_fraction" => "area of lines",
            "line_cell_count" => "cells enclosed by lines",
            "line_direction_spread" => "line direction spread (0 one way, 1 every way)",
            "line_local_direction_spread" => "line direction spread side by side (0 parallel, 1 every way)",
            "line_straightness" => "line straightness (1 straight)",
            "line_arc_share" => "share of lines that are arcs",
            "line_longest_share" => "share of the longest line",
            "line_through_share" => "share of lines that cross the whole photo",
            "gloss_loss_highlight" => "gloss loss by highlight",
            "gloss_loss_reflected_edge" => "gloss loss by reflected edge",
            "gloss_loss_zones" => "gloss loss between zones",
            "waviness_edge_wavelength" or "waviness_edge_wavelength_px" or "waviness_edge_wavelength_mm" => "wavelength on the reflected edge",
            _ => Lengths(metric
                .Replace("waviness_edge_", "waviness_by_reflected_edge,_", StringComparison.Ordinal)
                .Replace("waviness_contrast_", "waviness_by_local_contrast,_", StringComparison.Ordinal)),
        };
    }

    /// <summary>The name where the number beside it carries the unit.</summary>
    public static string WithoutUnit(string metric)
    {
        ArgumentNullException.ThrowIfNull(metric);
        return IsRange(metric) ? Of(metric) : Of(UnitAtEnd().Replace(metric, ""));
    }

    // In a range the unit belongs to the name: spots of 1 to 5 mm.
    private static bool IsRange(string metric) => RangeAtEnd().IsMatch(metric);

    private static string Lengths(string metric) =>
        Decimal().Replace(PixelRange().Replace(metric, "$1 to $2 px"), "$1.$2").Replace('_', ' ');

    [GeneratedRegex("(_per_mm|_per_dm2|_per_mpx|_mm|_px)$")]
    private static partial Regex UnitAtEnd();

    [GeneratedRegex("[0-9]_(to_[0-9_]+_)?(mm|px)$")]
    private static partial Regex RangeAtEnd();

    // Octaves of pixels are whole numbers: 4_8_px runs from 4 to 8.
    [GeneratedRegex("([0-9]+)_([0-9]+)_px")]
    private static partial Regex PixelRange();

    // Millimeters have one decimal: 0_6 is 0.6.
    [GeneratedRegex("([0-9]+)_([0-9]+)(?=_)")]
    private static partial Regex Decimal();
}
