using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Checks what no single field can tell: one photo must fit where a panel fits.</summary>
internal sealed class AnalysisOptionsConsistency : IValidateOptions<AnalysisOptions>
{
    /// <inheritdoc />
    public ValidateOptionsResult Validate(string? name, AnalysisOptions options) =>
        options.MaxInlineBytes <= options.MaxPanelBytes
            ? ValidateOptionsResult.Success
            : ValidateOptionsResult.Fail(
                $"{AnalysisOptions.SectionName}: MaxInlineBytes ({options.MaxInlineBytes}) must not be above " +
                $"MaxPanelBytes ({options.MaxPanelBytes}).");
}
