namespace CoatScan.Diagnosis;

/// <summary>Puts the weight of a piece of evidence into words.</summary>
internal static class WeightWords
{
    public static string Reason(string text, LikelihoodClass? listed) => $"{text}: {Words(listed)}";

    private static string Words(LikelihoodClass? listed) => listed switch
    {
        LikelihoodClass.StrongFor => "speaks strongly for it",
        LikelihoodClass.ModerateFor => "speaks for it",
        LikelihoodClass.WeakFor => "speaks weakly for it",
        LikelihoodClass.WeakAgainst => "speaks weakly against it",
        LikelihoodClass.ModerateAgainst => "speaks against it",
        LikelihoodClass.RulesOut => "all but rules it out",
        _ => "is not among its known signs",
    };
}
