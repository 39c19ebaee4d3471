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

        if (remedy.Steps is [var first, ..])
        {
            page.Entry("FIRST", InFull(first));
            page.Entries("THEN", remedy.Steps.Skip(1).Select(InShort));
        }

        page.Entries("HAND ON", finding.HandOvers.Select(one => $"To {one.To.TrimEnd('.')}: {one.Why.TrimEnd('.')}."));
        page.Entries("NEVER", remedy.MustNot.GroupBy(one => (one.Why, one.Scope)).Select(group =>
            Say(group.Key.Why, group.Key.Scope, [.. group.Select(one => TradeWords.Operation(one.Operation))])));
        var care = finding.CareAdvice.Take(MostCare).Select(one => one.TrimEnd('.')).ToList();
        page.Entry("LATER", care.Count == 0 ? "" : $"{Phrase.Capital(string.Join("; ", care))}.");
    }

    private static string InFull(RemedyStep step)
    {
        var stop = StopWords(step.StopIf);
        return $"{Phrase.Sentence(Action(step))}{(stop.Length > 0 ? " " + stop : "")}{Wait(step)}{Dates(step)}{Hours(step)}{Materials(step)}";
    }

    /// <summary>When to stop, as a sentence: the knowledge base says it in full or names just the sign.</summary>
    public static string StopWords(string stopIf)
    {
        ArgumentNullException.ThrowIfNull(stopIf);
        string[] verbs = ["stop", "move on", "stay"];
        return stopIf.Length == 0 || verbs.Any(verb => stopIf.StartsWith(verb, StringComparison.OrdinalIgnoreCase))
            ? Phrase.Sentence(stopIf)
            : $"Stop when: {stopIf.TrimEnd('.')}.";
    }

    private static string InShort(RemedyStep step) =>
        $"{Phrase.Sentence(Action(step))}{Wait(step)}{Dates(step)}{Hours(step)}{Materials(step)}";

    private static string Dates(RemedyStep step) => step.NotBefore.Length > 0
        ? $" Not before {step.NotBefore}, better from {step.BetterFrom}."
        : "";

    private static string Materials(RemedyStep step) => step.Materials.Length > 0 ? $" Takes {step.Materials.TrimEnd('.')}." : "";

    private static string Wait(RemedyStep step) =>
        step.HasWait && step.Wait is not ("" or "none") ? $" Wait: {step.Wait.TrimEnd('.')}." : "";

    private static string Action(RemedyStep step) =>
        step.Action.Length > 0 ? step.Action : TradeWords.Operation(step.Operation);

    private static string Hours(RemedyStep step) => step.Hours is { } hours
        ? string.Create(CultureInfo.InvariantCulture, $" About {hours.Low:0.##} to {hours.High:0.##} hours{(step.HoursFor.Length > 0 ? $" ({step.HoursFor})" : "")}.")
        : "";

    /// <summary>What not to do, when, and why.</summary>
    public static string Say(string why, string scope, IReadOnlyList<string> operations)
    {
        ArgumentNullException.ThrowIfNull(why);
        var words = TradeWords.Scope(scope);
        var when = words.Length > 0 ? $" ({words})" : "";
        // One colon a sentence: the reason may hold one of its own.
        return $"{Phrase.Capital(string.Join(", ", operations))}{when}: {why.TrimEnd('.').Replace(": ", "; ")}.";
    }
}
