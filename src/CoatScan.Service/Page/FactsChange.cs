using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Service.Page;

/// <summary>What a form says about a panel, put into what is known already.</summary>
internal sealed class FactsChange(Questions questions)
{
    private const int MostSaidBy = 64;

    /// <summary>The facts with one answer more; other outcomes of the same test give way to it.</summary>
    public PanelFacts With(PanelFacts facts, string evidence, string saidBy)
    {
        var left = Without(facts, [evidence, .. questions.Rivals(evidence)]);
        return saidBy.Length == 0
            ? left with { Evidence = [.. left.Evidence, evidence] }
            : left with { Statements = [.. left.Statements, new Statement(evidence, saidBy.Length > MostSaidBy ? saidBy[..MostSaidBy] : saidBy)] };
    }

    /// <summary>The facts without some answers.</summary>
    public static PanelFacts Without(PanelFacts facts, IReadOnlyCollection<string> evidence) => facts with
    {
        Evidence = [.. facts.Evidence.Where(id => !evidence.Contains(id))],
        Statements = [.. facts.Statements.Where(one => !evidence.Contains(one.Evidence))],
    };

    /// <summary>The facts with the readings of a form; a field left empty changes nothing.</summary>
    /// <exception cref="CoatScanException">A field holds no number or no date; it is named.</exception>
    public static PanelFacts With(PanelFacts facts, PhotoForm form)
    {
        var readings = facts.Readings;
        return facts with
        {
            Readings = readings with
            {
                FilmUm = form["film"].Length > 0 ? Numbers(form["film"], "film") : readings.FilmUm,
                Gloss60 = Number(form["gloss"], "gloss") ?? readings.Gloss60,
                DeltaE00 = Number(form["deltaE"], "deltaE") ?? readings.DeltaE00,
                FaultDepthUm = Number(form["depth"], "depth") ?? readings.FaultDepthUm,
            },
            MmPerPx = Number(form["scale"], "scale") ?? facts.MmPerPx,
            AppliedOn = Day(form["applied"]) ?? facts.AppliedOn,
        };
    }

    // People in half of the world write 0,25; a list of such numbers is separated by semicolons or spaces then.
    private static IReadOnlyList<double> Numbers(string text, string field)
    {
        var separators = text.Contains(';', StringComparison.Ordinal) ? new[] { ';' } : [',', ' '];
        return [.. text.Split(separators, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(one => Number(one, field)!.Value)];
    }

    private static double? Number(string text, string field) => text.Length == 0
        ? null
        : double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
            ? value
            : throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field} must be a number, for example 118 or 0.25.",
                field,
                new Dictionary<string, string> { ["format"] = "number" });

    private static DateOnly? Day(string text) => text.Length == 0
        ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new CoatScanException(
                ErrorReason.FieldInvalid, "applied must be a date as 2026-05-01.", "applied", new Dictionary<string, string> { ["format"] = "yyyy-MM-dd" });
}
