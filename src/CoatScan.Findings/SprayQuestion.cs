namespace CoatScan.Findings;

/// <summary>What is to be sprayed, and when.</summary>
/// <param name="Finish">What is sprayed.</param>
/// <param name="Job">How much.</param>
/// <param name="Now">Air and panel now.</param>
/// <param name="Forecast">Hours to come, in order of time; may be empty.</param>
public sealed record SprayQuestion(SprayFinish Finish, SprayJob Job, SprayAir Now, IReadOnlyList<SprayAir> Forecast);
