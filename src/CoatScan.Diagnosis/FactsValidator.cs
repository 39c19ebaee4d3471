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

    /// <summary>Most ids of evidence, and most statements.</summary>
    public const int MaxEvidence = 200;

    /// <summary>Most panels of a film map.</summary>
    public const int MaxFilmPanels = 40;

    /// <summary>Longest distance to what a panel mirrors and to the camera, millimeters.</summary>
    public const int MaxDistanceMm = 100_000;

    /// <summary>Longest name of who said something, characters.</summary>
    public const int MaxSaidByLength = 64;

    /// <summary>Refuses facts that cannot be ranked.</summary>
    /// <param name="facts">What the caller says.</param>
    /// <param name="knowledge">The vocabulary.</param>
    /// <exception cref="CoatScanException">
    /// <see cref="ErrorReason.EvidenceUnknown"/> for an unknown id, <see cref="ErrorReason.EvidenceConflict"/> for two
    /// outcomes of one test, <see cref="ErrorReason.ValueOutOfRange"/> for a number outside its range,
    /// <see cref="ErrorReason.FieldInvalid"/> for an empty, repeated or too long value. The field is relative to the facts:
    /// <c>evidence[3]</c>, <c>statements[1].saidBy</c>, <c>readings.filmUm[0]</c>, <c>readings.filmPanels[2].filmUm[0]</c>,
    /// <c>readings.gloss60</c>, <c>readings.deltaE00</c>, <c>readings.faultDepthUm</c>, <c>mmPerPx</c>, <c>reflectedDistanceMm</c>,
    /// <c>cameraDistanceMm</c>, <c>panel</c>, <c>externalRef</c>.
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

        CheckDistances(facts);
        CheckReadings(facts.Readings);
        Dictionary<string, string> byTrial = CheckEvidence(facts.Evidence, knowledge);
        CheckStatements(facts.Statements, byTrial, knowledge);
        foreach ((string id, string field) in ReadingEvidence.From(facts, knowledge.Ranking.Readings))
        {
            if (byTrial.TryGetValue(knowledge.Trials.TrialOf(id)!, out string? said) && said != id)
            {
                throw Conflict(field, said, id, $"{field} says '{id}', but the evidence says '{said}'.");
            }
        }
    }

    /// <summary>Refuses facts from which nothing can be ranked: without a photo something has to be said.</summary>
    /// <exception cref="CoatScanException"><see cref="ErrorReason.FieldInvalid"/> of <c>evidence</c>.</exception>
    public static void RequireEvidence(PanelFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        Readings readings = facts.Readings;
        if (facts.Evidence.Count == 0 && facts.Statements.Count == 0 && readings.FilmUm.Count == 0
            && readings.FilmPanels.Count == 0 && readings.Gloss60 is null && readings.DeltaE00 is null)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                "evidence is empty and no reading is given; without a photo name at least one sign, test or reading.",
                "evidence");
        }
    }

    private static void CheckDistances(PanelFacts facts)
    {
        foreach ((double? distance, string field) in
            ((double?, string)[])[(facts.ReflectedDistanceMm, "reflectedDistanceMm"), (facts.CameraDistanceMm, "cameraDistanceMm")])
        {
            if (distance is { } mm && !(mm is > 0 and <= MaxDistanceMm))
            {
                throw OutOfRange(field, mm, $"above 0 and at most {MaxDistanceMm} millimeters");
            }
        }

        if (facts.ReflectedDistanceMm.HasValue != facts.CameraDistanceMm.HasValue)
        {
            var (missing, given) = facts.CameraDistanceMm.HasValue
                ? ("reflectedDistanceMm", "cameraDistanceMm")
                : ("cameraDistanceMm", "reflectedDistanceMm");
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{missing} is missing: the slope of a mirroring surface needs it together with {given}. Give both or neither.",
                missing);
        }
    }

    private static void CheckCount(int count, int limit, string field, string what)
    {
        if (count > limit)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field} has {count} {what}; at most {limit} are allowed.",
                field,
                new Dictionary<string, string>
                {
                    ["count"] = count.ToString(CultureInfo.InvariantCulture),
                    ["limit"] = limit.ToString(CultureInfo.InvariantCulture),
                });
        }
    }

    private static void CheckStatements(
        IReadOnlyList<Statement> statements,
        Dictionary<string, string> byTrial,
        KnowledgeBase knowledge)
    {
        CheckCount(statements.Count, MaxEvidence, "statements", "statements");
        for (int i = 0; i < statements.Count; i++)
        {
            string id = statements[i].Evidence;
            string field = $"statements[{i}].evidence";
            CheckKnown(id, field, knowledge);
            CheckText(statements[i].SaidBy, $"statements[{i}].saidBy", MaxSaidByLength);
            if (statements[i].SaidBy.Length == 0)
            {
                throw new CoatScanException(
                    ErrorReason.FieldInvalid,
                    $"statements[{i}].saidBy is empty; say who said it, or name the id in evidence.",
                    $"statements[{i}].saidBy");
            }

            CheckOutcome(id, field, byTrial, knowledge);
        }
    }

    private static void CheckKnown(string id, string field, KnowledgeBase knowledge)
    {
        if (!knowledge.Evidence.ContainsKey(id))
        {
            string shown = Quoted.Short(id);
            throw new CoatScanException(
                ErrorReason.EvidenceUnknown,
                $"{field} '{shown}' is no id of the evidence vocabulary.{Nearest.Hint(id, knowledge.Evidence.Keys)}",
                field,
                new Dictionary<string, string> { ["evidence"] = shown });
        }
    }

    // Two people may say the same; but no test has two outcomes, whoever says so.
    private static void CheckOutcome(string id, string field, Dictionary<string, string> byTrial, KnowledgeBase knowledge)
    {
        if (knowledge.Trials.TrialOf(id) is { } trial && !byTrial.TryAdd(trial, id) && byTrial[trial] != id)
        {
            string first = byTrial[trial];
            throw Conflict(field, first, id, $"{field} '{id}' and '{first}' are two outcomes of one test; name one.");
        }
    }

    private static Dictionary<string, string> CheckEvidence(IReadOnlyList<string> evidence, KnowledgeBase knowledge)
    {
        CheckCount(evidence.Count, MaxEvidence, "evidence", "ids");
        var places = new Dictionary<string, int>(StringComparer.Ordinal);
        var byTrial = new Dictionary<string, string>(StringComparer.Ordinal);
        for (int i = 0; i < evidence.Count; i++)
        {
            string field = $"evidence[{i}]";
            string id = evidence[i] ?? "";
            CheckKnown(id, field, knowledge);
            if (!places.TryAdd(id, i))
            {
                throw new CoatScanException(
                    ErrorReason.FieldInvalid,
                    $"{field} repeats '{id}' of evidence[{places[id]}]; name it once.",
                    field,
                    new Dictionary<string, string> { ["evidence"] = id });
            }

            CheckOutcome(id, field, byTrial, knowledge);
        }

        return byTrial;
    }

    private static void CheckReadings(Readings readings)
    {
        CheckFilm(readings.FilmUm, "readings.filmUm");
        CheckCount(readings.FilmPanels.Count, MaxFilmPanels, "readings.filmPanels", "panels");
        var panels = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        for (int i = 0; i < readings.FilmPanels.Count; i++)
        {
            PanelFilm panel = readings.FilmPanels[i];
            string field = $"readings.filmPanels[{i}]";
            CheckText(panel.Panel, $"{field}.panel", MaxPanelLength);
            if (panel.Panel.Length == 0 || !panels.Add(panel.Panel))
            {
                throw new CoatScanException(
                    ErrorReason.FieldInvalid,
                    $"{field}.panel must name a panel that no other entry names.",
                    $"{field}.panel");
            }

            if (panel.FilmUm.Count == 0)
            {
                throw new CoatScanException(ErrorReason.FieldInvalid, $"{field}.filmUm has no readings.", $"{field}.filmUm");
            }

            CheckFilm(panel.FilmUm, $"{field}.filmUm");
        }

        if (readings.FaultDepthUm is { } depth && !(depth is > 0 and <= 1000))
        {
            throw OutOfRange("readings.faultDepthUm", depth, "above 0 and at most 1000 micrometers");
        }

        if (readings.Gloss60 is { } gloss && !(gloss is >= 0 and <= 200))
        {
            throw OutOfRange("readings.gloss60", gloss, "0 to 200 gloss units at 60 degrees");
        }

        if (readings.DeltaE00 is { } difference && !(difference is >= 0 and <= 100))
        {
            throw OutOfRange("readings.deltaE00", difference, "0 to 100");
        }
    }

    private static void CheckFilm(IReadOnlyList<double> filmUm, string field)
    {
        CheckCount(filmUm.Count, MaxFilmReadings, field, "readings");
        for (int i = 0; i < filmUm.Count; i++)
        {
            if (!(filmUm[i] is > 0 and <= 10000))
            {
                throw OutOfRange($"{field}[{i}]", filmUm[i], "above 0 and at most 10000 micrometers");
            }
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
