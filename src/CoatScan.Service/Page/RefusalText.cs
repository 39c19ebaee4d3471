using CoatScan.Findings;

namespace CoatScan.Service.Page;

/// <summary>A refusal in the reader's language, with its field as the form calls it.</summary>
internal static class RefusalText
{
    private const string Facts = "facts.";

    /// <summary>What to tell.</summary>
    /// <param name="refusal">The refusal.</param>
    /// <param name="context">The language.</param>
    /// <returns>The sentence; what the refusal says itself where the sentence says less, else empty; the field by its label, or by its own
    /// name where no form has it.</returns>
    public static (string Text, string Detail, string Field) Of(CoatScanException refusal, PageContext context)
    {
        // The form has no facts: what it says of a panel is all there is.
        var field = refusal.Field is { } full && full.StartsWith(Facts, StringComparison.Ordinal) ? full[Facts.Length..] : refusal.Field ?? "";
        var label = Label(field, context);
        if (label.Length > 0 && refusal.Message.StartsWith(field + " ", StringComparison.Ordinal))
        {
            // What a check says goes on from the name of the field; the same words may follow its label.
            var rest = refusal.Message[(field.Length + 1)..];
            if (context.Sheets.Trade.Knows(rest))
            {
                return (context.Words.Fill(context.Words.FieldSays, label, context.Sheets.Trade.Say(rest)), "", "");
            }
        }

        var text = context.Words.Refusal(refusal.Reason);
        var own = context.Sheets.Trade.Complain(refusal.Message);
        return (text ?? own, text is null ? "" : own, label.Length > 0 ? label : field);
    }

    // Fields of the form, and those of the facts that it fills.
    private static string Label(string field, PageContext context)
    {
        var words = context.Words;
        var name = field.Split('[')[0];
        return name switch
        {
            "film" or "readings.filmUm" => words.SayFilm,
            "gloss" or "readings.gloss60" => words.SayGloss,
            "deltaE" or "readings.deltaE00" => words.SayDeltaE,
            "depth" or "readings.faultDepthUm" => words.SayDepth,
            "scale" or "mmPerPx" => words.SayScale,
            "applied" or "appliedOn" => words.SayApplied,
            "panel" => words.PanelLabel,
            "reference" or "externalRef" => words.ReferenceLabel,
            "photos" => words.PhotosHeading,
            "statements" => field.EndsWith("saidBy", StringComparison.Ordinal) ? words.SaySaidBy : words.SayEvidence,
            "evidence" => words.SayEvidence,
            _ => "",
        };
    }
}
