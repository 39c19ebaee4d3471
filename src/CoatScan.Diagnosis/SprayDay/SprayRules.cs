namespace CoatScan.Diagnosis;

/// <summary>When and how to spray.</summary>
/// <param name="Magnus">Constants of the dew point.</param>
/// <param name="Gates">Limits.</param>
/// <param name="Bands">Settings by panel temperature, coldest first.</param>
/// <param name="Speeds">Thinner speeds, fastest first.</param>
/// <param name="SlowerByJob">How many speeds slower, by job.</param>
/// <param name="Lacquer">What damp air does to lacquer.</param>
/// <param name="Waterborne">What air does to waterborne color.</param>
/// <param name="Finishes">What belongs to a finish, by its id.</param>
/// <param name="Rules">Always said.</param>
/// <param name="ProductSheet">Always said last.</param>
/// <param name="Sources">Keys of the sources.</param>
public sealed record SprayRules(
    MagnusConstants Magnus,
    SprayLimits Gates,
    IReadOnlyList<SprayBand> Bands,
    IReadOnlyList<string> Speeds,
    IReadOnlyDictionary<string, int> SlowerByJob,
    LacquerRule Lacquer,
    WaterborneRule Waterborne,
    IReadOnlyDictionary<string, SprayFinishRule> Finishes,
    IReadOnlyList<string> Rules,
    string ProductSheet,
    IReadOnlyList<string> Sources);
