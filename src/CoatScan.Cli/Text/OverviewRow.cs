using System.Globalization;
using CoatScan.Cli.Photos;
using CoatScan.Cli.Sheets;
using CoatScan.Reports;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>What the overview keeps of one photo.</summary>
/// <param name="Order">Place among the others, worst first.</param>
/// <param name="Name">The photo.</param>
/// <param name="Verdict">The verdict in a word or two.</param>
/// <param name="Lead">Trade name of the leading condition, or why there is none.</param>
/// <param name="Share">Its share.</param>
/// <param name="FirstStep">The first step in a few words.</param>
internal sealed record OverviewRow(
    OverviewOrder Order, string Name, string Verdict, string Lead, string Share, string FirstStep)
{
    /// <summary>The row of an outcome.</summary>
    public static OverviewRow Of(PhotoOutcome outcome, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        if (outcome.Finding is not { } finding)
        {
            return new(
                OverviewOrder.Failed,
                outcome.Name,
                words.Fill("failed"),
                outcome.Error is { } error ? ErrorText.Reason(error, words) : "",
                "",
                words.Fill("send it again"));
        }

        var lead = finding.Conditions is [var first, ..] && finding.Verdict != V1.Verdict.NotAssessable ? first : null;
        return new(
            OverviewOrder.Of(FindingFromWire.Of(finding)),
            outcome.Name,
            lead is { Condition: TradeWords.SoundCondition } && finding.Verdict == V1.Verdict.Provisional
                ? words.Fill("no fault seen")
                : words.Fill(Word(finding.Verdict)),
            lead is null ? "" : words.Say(TradeWords.Condition(finding, lead.Condition)),
            lead is null ? "" : words.Say(Findings.ShareText.Percent(lead.Probability)),
            FirstStepOf(finding, words));
    }

    private static string FirstStepOf(Finding finding, ReaderWords words) => finding switch
    {
        { Verdict: V1.Verdict.NotAssessable } => words.Fill("take a better photo"),
        { Verdict: V1.Verdict.Inconclusive, NextTests: [var test, ..] } =>
            words.Fill("test: {0}", words.Say(test.DisplayName.Length > 0 ? test.DisplayName : Phrase.OfId(test.Test))),
        { Remedy.Steps: [var step, ..] } => words.Operation(step.Operation),
        _ => "",
    };

    /// <summary>A verdict in a word or two.</summary>
    public static string Word(Verdict verdict) => verdict switch
    {
        V1.Verdict.Conclusive => "decided",
        V1.Verdict.Provisional => "not certain",
        V1.Verdict.Inconclusive => "not decided",
        V1.Verdict.Sound => "sound",
        V1.Verdict.NotAssessable => "not judged",
        _ => verdict.ToString().ToLower(CultureInfo.InvariantCulture),
    };
}
