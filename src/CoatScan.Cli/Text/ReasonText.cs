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
        var words = page.Words;
        page.Entries("SEEN", Seen(finding, words));
        if (finding.Verdict == Verdict.NotAssessable || finding.Conditions is not [var lead, ..])
        {
            return;
        }

        var weights = lead.Evidence
            .Where(one => one.Id != "base" && !one.Id.StartsWith("cap.", StringComparison.Ordinal))
            .ToList();
        var up = weights.Where(one => one.WeightLog > NothingLog);
        var down = weights.Where(one => one.WeightLog < -NothingLog);
        page.Entries("FOR", up.OrderByDescending(one => one.WeightLog).Take(MostFor).Select(one => Say(one, finding, words)));
        page.Entries("AGAINST", down.OrderBy(one => one.WeightLog).Take(MostAgainst).Select(one => Say(one, finding, words)));
    }

    private static IEnumerable<string> Seen(Finding finding, ReaderWords words)
    {
        var shown = finding.VisualClasses.Where(one => one.Probability >= WorthShowing).Take(MostSeen).ToList();
        foreach (var one in shown.Concat(finding.VisualClasses.Where(one => one.HasBesideProbability).Except(shown)))
        {
            yield return Seen(one, finding, words);
        }

        var open = finding.VisualClasses.Where(one => one.Possible).Select(one => words.Say(Phrase.OfId(one.VisualClass))).ToList();
        if (finding.HasSetCoverage && open.Count > 1)
        {
            yield return words.Fill(
                "The photos cannot exclude: {0} (holds for {1} of rendered panels; nothing is promised for real photos).",
                string.Join(", ", open),
                words.Say(Findings.ShareText.Percent(finding.SetCoverage)));
        }
    }

    private static string Seen(VisualClassShare one, Finding finding, ReaderWords words)
    {
        var place = Place.Of(one.Regions, finding.Photos, words);
        var where = place.Length > 0 ? $", {place}" : "";
        var area = one.AreaFraction > 0 && place.Length > 0
            ? " " + words.Fill("(on {0} of the photo)", words.Say(Findings.ShareText.Percent(one.AreaFraction)))
            : "";
        var sure = one.HasBesideProbability
            ? words.Fill("a second fault beside the first, {0}", Sure(one.BesideProbability, words))
            : Sure(one.Probability, words);
        return $"{Phrase.Capital(words.Say(Phrase.OfId(one.VisualClass)))}, {sure}{where}{area}{Checked(one.Check, words)}.";
    }

    private static string Sure(double probability, ReaderWords words) =>
        $"{words.Fill(Share.Words(probability))} ({words.Say(Findings.ShareText.Percent(probability))})";

    private static string Checked(ClassCheck? check, ReaderWords words) => check switch
    {
        null => "",
        { Basis: OnRealPhotos, HasRecall: true } => "; " + words.Fill("checked on {0} real photos, {1} of them found", check.Photos, words.Say(Findings.ShareText.Percent(check.Recall))),
        _ => "; " + words.Fill("checked on rendered images only"),
    };

    private static string Say(EvidenceWeight weight, Finding finding, ReaderWords words)
    {
        var text = finding.Evidence.FirstOrDefault(one => one.Id == weight.Id)?.Text;
        text = string.IsNullOrEmpty(text) ? weight.Reason : text;
        text = string.IsNullOrEmpty(text) ? Phrase.OfId(weight.Id) : text;
        var strength = Math.Abs(weight.WeightLog) switch
        {
            >= StrongLog => "{0} (strong).",
            >= PlainLog => "{0} (clear).",
            _ => "{0} (slight).",
        };
        return words.Fill(strength, Phrase.Capital(words.Say(text).TrimEnd('.', ' ')));
    }
}
