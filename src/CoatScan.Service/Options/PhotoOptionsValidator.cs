using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Holds <see cref="PhotoOptions"/> to its ranges.</summary>
[OptionsValidator]
public sealed partial class PhotoOptionsValidator : IValidateOptions<PhotoOptions>;
