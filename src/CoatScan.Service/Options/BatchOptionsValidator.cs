using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Holds <see cref="BatchOptions"/> to its ranges.</summary>
[OptionsValidator]
public sealed partial class BatchOptionsValidator : IValidateOptions<BatchOptions>;
