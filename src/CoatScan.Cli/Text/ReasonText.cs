using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>Why: what the photo shows and which evidence speaks for or against the leading condition.</summary>
internal static class ReasonText
{
    private const int MostFor = 4;
    private const int MostAgainst = 2;
    private const int MostSeen = 3;
    private const double WorthShowing = 0.1;
    private const string OnRealPhotos = "REAL_PHOTOS";

    // Natural logarithms of the factors 4 and 2: strong and plain evidence in everyday words.
    private const double StrongLog = 1.386;
    private const double PlainLog = 0.693;
    private const double NothingLog = 0.05;

    /// <summary>Writes what is seen, then what speaks for and against.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        page.Entries("SEEN", Seen(finding));
        if (finding.Verdict == Verdict.NotAssessable || finding.Conditions is not [var lead, ..])
        {
            return;
        }

        var weights = lead.Evidence
            .Where(one => one.Id != "base" && !one.Id.StartsWith("cap.", StringComparison.Ordinal))
            .ToList();
        var up = weights.Where(one => one.WeightLog > NothingLog);
        var down = weights.Where(one => one.WeightLog < -NothingLog);
        page.Entries("FOR", up.OrderByDescending(one => one.WeightLog).Take(MostFor).Select(one => Say(one, finding)));
        page.Entries("AGAINST", down.OrderBy(one => one.WeightLog).Take(MostAgainst).Select(one => Say(one, finding)));
    }

    private static IEnumerable<string> Seen(Finding finding)
    {
        var shown = finding.VisualClasses.Where(one => one.Probability >= WorthShowing).Take(MostSeen).ToList();
        foreach (var one in shown.Concat(finding.VisualClasses.Where(one => one.HasBesideProbability).Except(shown)))
        {
            yield return Seen(one, finding);
        }

        var open = finding.VisualClasses.Where(one => one.Possible).Select(one => Phrase.OfId(one.VisualClass)).ToList();
        if (finding.HasSetCoverage && open.Count > 1)
        {
            yield return $"The photos cannot exclude: {string.Join(", ", open)} "
                + $"(holds for {Share.Percent(finding.SetCoverage)} of rendered panels; nothing is promised for real photos).";
        }
    }

    private static string Seen(VisualClassShare one, Finding finding)
    {
        var place = Place.Of(one.Regions, finding.Photos);
        var where = place.Length > 0 ? $", {place}" : "";
        var area = one.AreaFraction > 0 && place.Length > 0
            ? $" (on {Share.Percent(one.AreaFraction)} of the photo)"
            : "";
        var sure = one.HasBesideProbability
            ? $"a second fault beside the first, {Share.Words(one.BesideProbability)} ({Share.Percent(one.BesideProbability)})"
            : $"{Share.Words(one.Probability)} ({Share.Percent(one.Probability)})";
        return $"{Phrase.Capital(Phrase.OfId(one.VisualClass))}, {sure}{where}{area}{Checked(one.Check)}.";
    }

    private static string Checked(ClassCheck? check) => check switch
    {
        null => "",
        { Basis: OnRealPhotos, HasRecall: true } => $"; checked on {check.Photos} real photos, {Share.Percent(check.Recall)} of them found",
        _ => "; checked on rendered images only",
    };

    private static string Say(EvidenceWeight weight, Finding finding)
    {
        var text = finding.Evidence.FirstOrDefault(one => one.Id == weight.Id)?.Text;
        text = string.IsNullOrEmpty(text) ? weight.Reason : text;
        text = string.IsNullOrEmpty(text) ? Phrase.OfId(weight.Id) : text;
        var strength = Math.Abs(weight.WeightLog) switch
        {
            >= StrongLog => "strong",
            >= PlainLog => "clear",
            _ => "slight",
        };
        return $"{Phrase.Capital(text.TrimEnd('.', ' '))} ({strength}).";
    }
}
