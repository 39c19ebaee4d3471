using Microsoft.Extensions.Options;

namespace CoatScan.Service.Options;

/// <summary>Holds <see cref="AnalysisOptions"/> to its ranges and its fields to each other.</summary>
[OptionsValidator]
public sealed partial class AnalysisOptionsValidator : IValidateOptions<AnalysisOptions>;
