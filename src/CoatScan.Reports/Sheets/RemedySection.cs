using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What to do, when to stop, how long to hold; what never to do; who must do it; what is dangerous.</summary>
internal static class RemedySection
{
    public static IEnumerable<Block> Blocks(Finding finding, SheetWords words)
    {
        if (finding.Remedy.Steps.Count > 0)
        {
            yield return new Heading(2, words.WhatToDo);
            yield return Steps(finding.Remedy.Steps, words.StepsCaption, words);
        }

        if (finding.Remedy.MustNot.Count > 0)
        {
            yield return MustNot(finding.Remedy.MustNot, words);
        }

        if (finding.FilmBudget is { } budget)
        {
            yield return new Paragraph(Tone.Plain, Text.Bold(words.FilmBudget + " "), Phrases.Sentence(budget.Text));
        }

        foreach (Block block in Safety(finding.Cautions, finding.HandOvers, words))
        {
            yield return block;
        }
    }

    /// <summary>What is dangerous, and what belongs in other hands.</summary>
    public static IEnumerable<Block> Safety(IReadOnlyList<string> cautions, IReadOnlyList<HandOver> handOvers, SheetWords words) => Columns.Of(
        cautions.Count == 0 ? [] :
        [
            new Heading(3, words.Safety),
            new ItemList(false, [.. cautions.Select(one => new Text[] { Phrases.Sentence(one) })]),
        ],
        handOvers.Count == 0 ? [] :
        [
            new Heading(3, words.HandOver),
            new ItemList(false, [.. handOvers.Select(one => new Text[]
            {
                Text.Bold(Phrases.Capital(one.To.TrimEnd('.')) + ": "), one.Why.TrimEnd('.') + ".",
            })]),
        ]);

    /// <summary>What must not be done, in a frame.</summary>
    public static Frame MustNot(IReadOnlyList<MustNot> mustNot, SheetWords words) => new(words.Never, [
        new ItemList(false, [.. mustNot.GroupBy(one => (one.Why, one.Scope)).Select(group => new Text[]
        {
            Text.Bold(Phrases.Capital(string.Join(", ", group.Select(one => words.Operation(one.Operation))))
                + (words.Scope(group.Key.Scope) is { Length: > 0 } when ? $" ({when})" : "") + ": "),
            group.Key.Why.TrimEnd('.') + ".",
        })]),
    ]);

    /// <summary>What is done in a step.</summary>
    public static string Action(RemedyStep step, SheetWords words) =>
        Phrases.Sentence(step.Action.Length > 0 ? step.Action : words.Operation(step.Operation));

    /// <summary>How long to hold, in words and as days; empty where nothing is known.</summary>
    public static string Hold(RemedyStep step, SheetWords words)
    {
        string wait = step.Wait is { Length: > 0 } text && text != "none" ? Phrases.Sentence(text) : "";
        string from = step.NotBefore is { } day
            ? words.Fill(words.NotBefore, words.Format.Day(day))
            : "";
        string better = step.BetterFrom is { } later ? words.Fill(words.BetterFrom, words.Format.Day(later)) : "";
        return string.Join(" ", new[] { wait, from, better }.Where(one => one.Length > 0));
    }

    /// <summary>Hours with what they are for; empty where none are known.</summary>
    public static string Hours(RemedyStep step, SheetWords words) => step.Hours is { } hours
        ? words.Fill(words.RangeOf, words.Figure(hours.Low), words.Figure(hours.High)) + $"{(step.HoursFor.Length > 0 ? $" ({step.HoursFor})" : "")}"
        : "";

    /// <summary>Materials and film that the step takes; empty where nothing is known.</summary>
    public static string Takes(RemedyStep step, SheetWords words) => string.Join("; ", new[]
    {
        step.Materials.TrimEnd('.'),
        step.SpendsUm is { } film ? words.Fill(words.FilmTaken, words.Figure(film.Low), words.Figure(film.High)) : "",
    }.Where(one => one.Length > 0));

    /// <summary>The steps as a table.</summary>
    /// <param name="steps">The steps.</param>
    /// <param name="caption">What stands above.</param>
    /// <param name="words">Words of the language.</param>
    /// <param name="signOff">Whether there is room to sign each step off.</param>
    public static Table Steps(IReadOnlyList<RemedyStep> steps, string caption, SheetWords words, bool signOff = false)
    {
        // A column that no step fills would only make the others narrow.
        bool anyHold = steps.Any(step => Hold(step, words).Length > 0);
        bool anyHours = steps.Any(step => Hours(step, words).Length > 0);
        bool anyTakes = steps.Any(step => Takes(step, words).Length > 0);
        List<(string, double)> columns = [(words.Number, 0.65), (words.Step, 2.8), (words.StopWhen, 2.3)];
        columns.AddRange(anyHold ? [(words.Hold, 1.8)] : []);
        columns.AddRange(anyHours ? [(words.Hours, 1.9)] : []);
        columns.AddRange(anyTakes ? [(words.Takes, 2.2)] : []);
        columns.AddRange(signOff ? [(words.SignOff, 1.5)] : []);
        return new(caption, columns, [.. steps.Select((step, at) =>
        {
            List<Text> row =
            [
                (at + 1).ToString(CultureInfo.InvariantCulture),
                new Text(Action(step, words), Strong: at == 0),
                Phrases.Sentence(step.StopIf),
            ];
            row.AddRange(anyHold ? [Hold(step, words)] : []);
            row.AddRange(anyHours ? [Hours(step, words)] : []);
            row.AddRange(anyTakes ? [Takes(step, words)] : []);
            row.AddRange(signOff ? [""] : []);
            return row;
        })]);
    }
}
