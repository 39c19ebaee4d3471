using Microsoft.Extensions.Options;

namespace CoatScan.Service.Access;

/// <summary>Holds <see cref="AccessOptions"/> to what is required.</summary>
[OptionsValidator]
public sealed partial class AccessOptionsValidator : IValidateOptions<AccessOptions>;
