using System.Globalization;
using CoatScan.Findings;
using CoatScan.Service.Page.Words;

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
    /// <exception cref="CoatScanException">A field holds no number or no date, or one that can be read in two ways; it is named.</exception>
    public static PanelFacts With(PanelFacts facts, PhotoForm form, PageWords words)
    {
        var typed = new TypedNumbers(words);
        var readings = facts.Readings;
        return facts with
        {
            Readings = readings with
            {
                FilmUm = form["film"].Length > 0 ? typed.Several(form["film"], "film") : readings.FilmUm,
                Gloss60 = typed.One(form["gloss"], "gloss") ?? readings.Gloss60,
                DeltaE00 = typed.One(form["deltaE"], "deltaE") ?? readings.DeltaE00,
                FaultDepthUm = typed.One(form["depth"], "depth") ?? readings.FaultDepthUm,
            },
            MmPerPx = typed.One(form["scale"], "scale") ?? facts.MmPerPx,
            AppliedOn = Day(form["applied"], words) ?? facts.AppliedOn,
        };
    }

    private static DateOnly? Day(string text, PageWords words) => text.Length == 0
        ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : throw new CoatScanException(
                ErrorReason.FieldInvalid, words.Fill(words.NoDate, text), "applied", new Dictionary<string, string> { ["format"] = "yyyy-MM-dd" });
}
