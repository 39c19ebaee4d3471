namespace CoatScan.Findings;

/// <summary>How much is sprayed at once.</summary>
public enum SprayJob
{
    /// <summary>A spot inside a panel.</summary>
    Spot,

    /// <summary>One panel.</summary>
    OnePanel,

    /// <summary>Several panels.</summary>
    SeveralPanels,

    /// <summary>The whole vehicle.</summary>
    WholeVehicle,
}
