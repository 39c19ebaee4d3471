using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Checks what a caller says about a panel before anything is computed from it.</summary>
public static class FactsValidator
{
    /// <summary>Longest name of a panel, characters.</summary>
    public const int MaxPanelLength = 64;

    /// <summary>Longest reference of the caller, characters.</summary>
    public const int MaxExternalRefLength = 128;

    /// <summary>Most film readings of one panel.</summary>
    public const int MaxFilmReadings = 200;

    /// <summary>Refuses facts that cannot be ranked.</summary>
    /// <param name="facts">What the caller says.</param>
    /// <param name="knowledge">The vocabulary.</param>
    /// <exception cref="CoatScanException">
    /// <see cref="ErrorReason.EvidenceUnknown"/> for an unknown id, <see cref="ErrorReason.EvidenceConflict"/> for two
    /// outcomes of one test, <see cref="ErrorReason.ValueOutOfRange"/> for a number outside its range,
    /// <see cref="ErrorReason.FieldInvalid"/> for an empty, repeated or too long value. The field is relative to the facts:
    /// <c>evidence[3]</c>, <c>readings.filmUm[0]</c>, <c>readings.gloss60</c>, <c>readings.deltaE00</c>, <c>mmPerPx</c>,
    /// <c>panel</c>, <c>externalRef</c>.
    /// </exception>
    public static void Validate(PanelFacts facts, KnowledgeBase knowledge)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(knowledge);
        CheckText(facts.Panel, "panel", MaxPanelLength);
        CheckText(facts.ExternalRef, "externalRef", MaxExternalRefLength);
        if (facts.MmPerPx is { } scale && !(scale is > 0 and <= 10))
        {
            throw OutOfRange("mmPerPx", scale, "above 0 and at most 10 millimeters per pixel");
        }

        CheckReadings(facts.Readings);
        Dictionary<string, string> byTrial = CheckEvidence(facts.Evidence, knowledge);
        foreach ((string id, string field) in ReadingEvidence.From(facts.Readings, knowledge.Ranking.Readings))
        {
            if (byTrial.TryGetValue(knowledge.Trials.TrialOf(id)!, out string? said) && said != id)
            {
                throw Conflict(field, said, id, $"{field} says '{id}', but the evidence says '{said}'.");
            }
        }
    }

    private static Dictionary<string, string> CheckEvidence(IReadOnlyList<string> evidence, KnowledgeBase knowledge)
    {
        var places = new Dictionary<string, int>(StringComparer.Ordinal);
        var byTrial = new Dictionary<string, string>(StringComparer.Ordinal);
        for (int i = 0; i < evidence.Count; i++)
        {
            string field = $"evidence[{i}]";
            string id = evidence[i] ?? "";
            if (!knowledge.Evidence.ContainsKey(id))
            {
                string shown = Quoted.Short(id);
                throw new CoatScanException(
                    ErrorReason.EvidenceUnknown,
                    $"{field} '{shown}' is no id of the evidence vocabulary.{Nearest.Hint(id, knowledge.Evidence.Keys)}",
                    field,
                    new Dictionary<string, string> { ["evidence"] = shown });
            }

            if (!places.TryAdd(id, i))
            {
                throw new CoatScanException(
                    ErrorReason.FieldInvalid,
                    $"{field} repeats '{id}' of evidence[{places[id]}]; name it once.",
                    field,
                    new Dictionary<string, string> { ["evidence"] = id });
            }

            if (knowledge.Trials.TrialOf(id) is { } trial && !byTrial.TryAdd(trial, id))
            {
                string first = byTrial[trial];
                throw Conflict(field, first, id, $"{field} '{id}' and '{first}' are two outcomes of one test; name one.");
            }
        }

        return byTrial;
    }

    private static void CheckReadings(Readings readings)
    {
        if (readings.FilmUm.Count > MaxFilmReadings)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"readings.filmUm has {readings.FilmUm.Count} readings; at most {MaxFilmReadings} are allowed.",
                "readings.filmUm",
                new Dictionary<string, string> { ["count"] = readings.FilmUm.Count.ToString(CultureInfo.InvariantCulture) });
        }

        for (int i = 0; i < readings.FilmUm.Count; i++)
        {
            if (!(readings.FilmUm[i] is > 0 and <= 10000))
            {
                throw OutOfRange($"readings.filmUm[{i}]", readings.FilmUm[i], "above 0 and at most 10000 micrometers");
            }
        }

        if (readings.Gloss60 is { } gloss && !(gloss is >= 0 and <= 200))
        {
            throw OutOfRange("readings.gloss60", gloss, "0 to 200 gloss units");
        }

        if (readings.DeltaE00 is { } difference && !(difference is >= 0 and <= 100))
        {
            throw OutOfRange("readings.deltaE00", difference, "0 to 100");
        }
    }

    private static void CheckText(string text, string field, int maxLength)
    {
        if (text.Length > maxLength)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field} has {text.Length} characters; at most {maxLength} are allowed.",
                field,
                new Dictionary<string, string> { ["length"] = text.Length.ToString(CultureInfo.InvariantCulture) });
        }

        if (text.Any(char.IsControl))
        {
            throw new CoatScanException(ErrorReason.FieldInvalid, $"{field} holds a control character.", field);
        }
    }

    private static CoatScanException OutOfRange(string field, double value, string range)
    {
        string shown = value.ToString("R", CultureInfo.InvariantCulture);
        return new(
            ErrorReason.ValueOutOfRange,
            $"{field} is {shown}; it must be {range}.",
            field,
            new Dictionary<string, string> { ["value"] = shown, ["range"] = range });
    }

    private static CoatScanException Conflict(string field, string first, string second, string message) => new(
        ErrorReason.EvidenceConflict,
        message,
        field,
        new Dictionary<string, string> { ["first"] = first, ["second"] = second });
}
