using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Holds <see cref="StorageSettings"/> to its ranges.</summary>
[OptionsValidator]
public sealed partial class StorageSettingsValidator : IValidateOptions<StorageSettings>;
