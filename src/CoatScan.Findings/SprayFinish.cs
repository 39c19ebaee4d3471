namespace CoatScan.Findings;

/// <summary>What is sprayed.</summary>
public enum SprayFinish
{
    /// <summary>Air-dry lacquer.</summary>
    Lacquer,

    /// <summary>Synthetic (alkyd) enamel.</summary>
    SyntheticEnamel,

    /// <summary>Single-stage two-component color.</summary>
    SingleStage2K,

    /// <summary>Solvent color under clear.</summary>
    BasecoatClearcoat,

    /// <summary>Waterborne color under clear.</summary>
    WaterborneBase,
}
