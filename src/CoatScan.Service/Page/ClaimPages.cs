namespace CoatScan.Service.Page;

/// <summary>Several panels of one vehicle.</summary>
internal sealed class ClaimPages
{
    /// <summary>Address of the panels with a reference.</summary>
    public static string Address(string reference) => "/claims?reference=" + Uri.EscapeDataString(reference);
}
