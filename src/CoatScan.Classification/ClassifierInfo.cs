using CoatScan.Findings;

namespace CoatScan.Classification;

/// <summary>What a finding must say about the model it used.</summary>
/// <param name="Version">Version of the model.</param>
/// <param name="Sha256">Digest of the model's parts, lower-case hexadecimal.</param>
/// <param name="Classes">Ids of the visual classes, in the order of the model's outputs.</param>
/// <param name="PriorShares">How often photos that people send are taken to show each class, [0, 1], sum 1: what the probabilities start from.</param>
/// <param name="Lambda">Weight of the photo's evidence in the log-odds merge, [0, 1].</param>
/// <param name="SetCoverage">Share of rendered panels whose true class is among those that a photo cannot exclude, [0, 1].</param>
/// <param name="Checks">How far naming each class was checked, by id.</param>
public sealed record ClassifierInfo(
    string Version,
    string Sha256,
    IReadOnlyList<string> Classes,
    IReadOnlyDictionary<string, double> PriorShares,
    double Lambda,
    double SetCoverage,
    IReadOnlyDictionary<string, ClassCheck> Checks);
