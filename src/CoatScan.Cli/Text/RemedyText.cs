using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What to do first, what may follow, and what never to do.</summary>
internal static class RemedyText
{
    private const int MostCare = 3;

    /// <summary>Writes the ladder and the must-nots.</summary>
    public static void Write(TextPage page, Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        if (finding.Remedy is not { } remedy)
        {
            return;
        }

        var words = page.Words;
        if (remedy.Steps is [var first, ..])
        {
            page.Entry("FIRST", InFull(first, words));
            page.Entries("THEN", remedy.Steps.Skip(1).Select(one => InShort(one, words)));
        }

        page.Entries("HAND ON", finding.HandOvers.Select(one => words.Fill("To {0}: {1}.", words.Bare(one.To), words.Bare(one.Why))));
        page.Entries("NEVER", remedy.MustNot.GroupBy(one => (one.Why, one.Scope)).Select(group =>
            Say(group.Key.Why, group.Key.Scope, [.. group.Select(one => words.Operation(one.Operation))], words)));
        var care = finding.CareAdvice.Take(MostCare).Select(words.Bare).ToList();
        page.Entry("LATER", care.Count == 0 ? "" : $"{Phrase.Capital(string.Join("; ", care))}.");
    }

    private static string InFull(RemedyStep step, ReaderWords words)
    {
        var stop = StopWords(step.StopIf, words);
        return $"{Phrase.Sentence(Action(step, words))}{(stop.Length > 0 ? " " + stop : "")}{Rest(step, words)}";
    }

    /// <summary>When to stop, as a sentence: the knowledge base says it in full or names just the sign.</summary>
    public static string StopWords(string stopIf, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(stopIf);
        string[] verbs = ["stop", "move on", "stay"];
        return stopIf.Length == 0 || verbs.Any(verb => stopIf.StartsWith(verb, StringComparison.OrdinalIgnoreCase))
            ? words.Sentence(stopIf)
            : words.Fill("Stop when: {0}.", words.Bare(stopIf));
    }

    private static string InShort(RemedyStep step, ReaderWords words) => $"{Phrase.Sentence(Action(step, words))}{Rest(step, words)}";

    private static string Rest(RemedyStep step, ReaderWords words) =>
        $"{Wait(step, words)}{Dates(step, words)}{Hours(step, words)}{Materials(step, words)}";

    private static string Dates(RemedyStep step, ReaderWords words) => step.NotBefore.Length > 0
        ? " " + words.Fill("Not before {0}, better from {1}.", Day(step.NotBefore, words), Day(step.BetterFrom, words))
        : "";

    private static string Day(string iso, ReaderWords words) =>
        DateOnly.TryParseExact(iso, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? words.Format.Day(day) : iso;

    private static string Materials(RemedyStep step, ReaderWords words) =>
        step.Materials.Length > 0 ? " " + words.Fill("Takes {0}.", words.Bare(step.Materials)) : "";

    private static string Wait(RemedyStep step, ReaderWords words) =>
        step.HasWait && step.Wait is not ("" or "none") ? " " + words.Fill("Wait: {0}.", words.Bare(step.Wait)) : "";

    private static string Action(RemedyStep step, ReaderWords words) =>
        step.Action.Length > 0 ? words.Say(step.Action) : words.Operation(step.Operation);

    private static string Hours(RemedyStep step, ReaderWords words)
    {
        if (step.Hours is not { } hours)
        {
            return "";
        }

        var what = step.HoursFor.Length > 0 ? $" ({words.Say(step.HoursFor)})" : "";
        return " " + words.Fill("About {0} to {1} hours{2}.", Math.Round(hours.Low, 2), Math.Round(hours.High, 2), what);
    }

    /// <summary>What not to do, when, and why.</summary>
    public static string Say(string why, string scope, IReadOnlyList<string> operations, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(why);
        var limit = TradeWords.Scope(scope);
        var when = limit.Length > 0 ? $" ({words.Fill(limit)})" : "";
        // One colon a sentence: the reason may hold one of its own.
        return $"{Phrase.Capital(string.Join(", ", operations))}{when}: {words.Bare(why).Replace(": ", "; ")}.";
    }
}
