using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Checks what no single field can tell: one photo must fit where a panel fits.</summary>
internal sealed class AnalysisOptionsConsistency : IValidateOptions<AnalysisOptions>
{
    private const int LargestPhotoMegapixels = 50;

    /// <inheritdoc />
    public ValidateOptionsResult Validate(string? name, AnalysisOptions options) =>
        options switch
        {
            { MaxMegapixelsInFlight: > 0 and < LargestPhotoMegapixels } => ValidateOptionsResult.Fail(
                $"{AnalysisOptions.SectionName}: MaxMegapixelsInFlight ({options.MaxMegapixelsInFlight}) must be 0, or at least " +
                $"{LargestPhotoMegapixels}: the largest photo must fit."),
            _ when options.MaxInlineBytes > options.MaxPanelBytes => ValidateOptionsResult.Fail(
                $"{AnalysisOptions.SectionName}: MaxInlineBytes ({options.MaxInlineBytes}) must not be above " +
                $"MaxPanelBytes ({options.MaxPanelBytes})."),
            _ => ValidateOptionsResult.Success,
        };
}
