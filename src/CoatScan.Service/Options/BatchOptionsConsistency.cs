using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Checks that the hand-out is one of ours.</summary>
internal sealed class BatchOptionsConsistency : IValidateOptions<BatchOptions>
{
    /// <inheritdoc />
    public ValidateOptionsResult Validate(string? name, BatchOptions options) =>
        options.UsesBroker || options.HandOut.Equals(BatchOptions.Channel, StringComparison.OrdinalIgnoreCase)
            ? ValidateOptionsResult.Success
            : ValidateOptionsResult.Fail(
                $"{BatchOptions.SectionName}: HandOut is '{options.HandOut}'; it must be {BatchOptions.Channel} or {BatchOptions.RabbitMq}.");
}
