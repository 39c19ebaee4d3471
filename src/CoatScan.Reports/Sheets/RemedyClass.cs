using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What kind of work a remedy is, lightest first.</summary>
public enum RemedyClass
{
    /// <summary>Leave, protect or wait.</summary>
    Leave,

    /// <summary>Wash or dissolve.</summary>
    Wash,

    /// <summary>Work by hand.</summary>
    ByHand,

    /// <summary>Polish or sand by machine.</summary>
    Polish,

    /// <summary>Paint a part of the panel.</summary>
    LocalPaint,

    /// <summary>Paint the whole panel.</summary>
    PanelPaint,

    /// <summary>Strip, treat rust or work on metal.</summary>
    Metal,

    /// <summary>Replace the panel.</summary>
    Replace,
}

/// <summary>The kinds of work of a remedy's steps.</summary>
public static class RemedyClasses
{
    private static readonly Dictionary<string, RemedyClass> OfOperation = new(StringComparer.Ordinal)
    {
        ["none_monitor"] = RemedyClass.Leave,
        ["protect"] = RemedyClass.Leave,
        ["wait_cure"] = RemedyClass.Leave,
        ["wash"] = RemedyClass.Wash,
        ["mild_acid"] = RemedyClass.Wash,
        ["mild_alkali"] = RemedyClass.Wash,
        ["tar_solvent"] = RemedyClass.Wash,
        ["iron_remove"] = RemedyClass.Wash,
        ["warm_dry"] = RemedyClass.Wash,
        ["clay"] = RemedyClass.ByHand,
        ["hand_polish"] = RemedyClass.ByHand,
        ["denib"] = RemedyClass.ByHand,
        ["touch_up"] = RemedyClass.ByHand,
        ["machine_polish"] = RemedyClass.Polish,
        ["compound"] = RemedyClass.Polish,
        ["wet_sand"] = RemedyClass.Polish,
        ["retard_mist"] = RemedyClass.LocalPaint,
        ["spot_refinish"] = RemedyClass.LocalPaint,
        ["blend"] = RemedyClass.PanelPaint,
        ["seal_recoat"] = RemedyClass.PanelPaint,
        ["reclear"] = RemedyClass.PanelPaint,
        ["panel_refinish"] = RemedyClass.PanelPaint,
        ["sand_sound"] = RemedyClass.PanelPaint,
        ["rust_repair"] = RemedyClass.Metal,
        ["strip"] = RemedyClass.Metal,
        ["dent_first"] = RemedyClass.Metal,
        ["replace"] = RemedyClass.Replace,
    };

    /// <summary>The lightest and the heaviest kind of work of the steps; null where no step is of a kind that is known.</summary>
    public static (RemedyClass Lightest, RemedyClass Heaviest)? Of(Remedy remedy)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        List<RemedyClass> known = [.. remedy.Steps
            .Where(step => OfOperation.ContainsKey(step.Operation))
            .Select(step => OfOperation[step.Operation])];
        return known.Count == 0 ? null : (known.Min(), known.Max());
    }

    /// <summary>Hours from the first step that has some to all steps together; null where no step has any.</summary>
    public static HourRange? Hours(Remedy remedy)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        List<HourRange> hours = [.. remedy.Steps.Where(step => step.Hours is not null).Select(step => step.Hours!)];
        return hours.Count == 0 ? null : new(hours[0].Low, hours.Sum(one => one.High));
    }
}
