using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Imaging.Cards;

/// <summary>A card that lies on a panel and gives a photo its scale: what is printed where.</summary>
/// <remarks>
/// A code that carries its own size; gray patches; a line of 100 mm with a mark every 10 mm; and a black bar whose long straight
/// edge can be held so that the panel mirrors it. Only black and gray.
/// </remarks>
public sealed class ScaleCard
{
    /// <summary>Width, millimeters.</summary>
    public const double WidthMm = 120;

    /// <summary>Height, millimeters.</summary>
    public const double HeightMm = 90;

    /// <summary>Side of the code, millimeters.</summary>
    public const double CodeSideMm = 46;

    // The quiet zone is four modules (ISO/IEC 18004, 6.3.8): at most 46 / 25 * 4 = 7.4 mm.
    internal const double CodeLeftMm = 9;
    internal const double CodeTopMm = 9;

    private const double FrameMm = 0.25;
    private const double PatchLeftMm = 65;
    private const double PatchTopMm = 33;
    private const double PatchWidthMm = 8;
    private const double PatchHeightMm = 16;
    private const double RuleLeftMm = 10;
    private const double RuleTopMm = 66;
    private const double RuleLineMm = 0.3;
    private const double BarTopMm = 78;

    // Halved from step to step, about one stop: common practice for gray scales, no source.
    private static readonly double[] Steps = [0.8, 0.4, 0.2, 0.1, 0.05, 0];

    private ScaleCard(CardMessage message, IReadOnlyList<CardRectangle> rectangles, IReadOnlyList<CardLabel> labels)
    {
        Message = message;
        Rectangles = rectangles;
        Labels = labels;
    }

    /// <summary>What the code says.</summary>
    public CardMessage Message { get; }

    /// <summary>Everything that is filled, on white.</summary>
    public IReadOnlyList<CardRectangle> Rectangles { get; }

    /// <summary>All text; what lies outside the card is for the sheet it is cut from.</summary>
    public IReadOnlyList<CardLabel> Labels { get; }

    /// <summary>Lays out a card.</summary>
    /// <param name="vehicle">The user's reference of the vehicle, or empty.</param>
    /// <param name="panel">The user's name of the panel, or empty.</param>
    /// <param name="words">Says what is printed in the reader's language; English without.</param>
    /// <exception cref="CoatScanException">The references do not fit.</exception>
    public static ScaleCard Of(string vehicle, string panel, CardWords? words = null)
    {
        var message = CardMessage.Of(CodeSideMm, vehicle, panel);
        return new ScaleCard(message, [.. Frame(), .. Code(message), .. Patches(), .. Rule(), Bar], [.. LabelsOf(message, words ?? English)]);
    }

    /// <summary>The gray patches, lightest first.</summary>
    internal static IReadOnlyList<CardRectangle> PatchPlaces { get; } = [.. Patches()];

    /// <summary>Bare paper near the patches: beside the code's quiet zone, and above the patches.</summary>
    internal static IReadOnlyList<CardRectangle> PaperPlaces { get; } =
    [
        new(57, 14, 6, 40, 1),
        new(PatchLeftMm, 29.5, 6 * PatchWidthMm, 3, 1),
    ];

    private static CardRectangle Bar => new(0, BarTopMm, WidthMm, HeightMm - BarTopMm, 0);

    private static IEnumerable<CardRectangle> Frame() =>
    [
        new(0, 0, WidthMm, FrameMm, 0),
        new(0, 0, FrameMm, HeightMm, 0),
        new(WidthMm - FrameMm, 0, FrameMm, HeightMm, 0),
    ];

    private static IEnumerable<CardRectangle> Code(CardMessage message)
    {
        var code = CardCode.Of(message);
        double moduleMm = CodeSideMm / code.Side;
        for (int y = 0; y < code.Side; y++)
        {
            for (int x = 0; x < code.Side; x++)
            {
                // One rectangle a run: viewers draw a hairline between rectangles that touch.
                int start = x;
                while (code.IsDark(x, y))
                {
                    x++;
                }

                if (x > start)
                {
                    yield return new(
                        CodeLeftMm + (start * moduleMm), CodeTopMm + (y * moduleMm), (x - start) * moduleMm, moduleMm, 0);
                }
            }
        }
    }

    private static IEnumerable<CardRectangle> Patches() => Steps.Select((reflectance, i) =>
        new CardRectangle(PatchLeftMm + (i * PatchWidthMm), PatchTopMm, PatchWidthMm, PatchHeightMm, reflectance));

    // Marks are centered on their place; the line ends with the outer edges of the first and the last mark's middle.
    private static IEnumerable<CardRectangle> Rule()
    {
        yield return new(RuleLeftMm, RuleTopMm, 100, RuleLineMm, 0);
        for (int mark = 0; mark <= 10; mark++)
        {
            double length = mark % 5 == 0 ? 4.5 : 3;
            yield return new(RuleLeftMm + (10 * mark) - (RuleLineMm / 2), RuleTopMm - length, RuleLineMm, length + RuleLineMm, 0);
        }
    }

    private static string English(string english, params object[] values) => string.Format(CultureInfo.InvariantCulture, english, values);

    private static IEnumerable<CardLabel> LabelsOf(CardMessage message, CardWords words)
    {
        yield return new(PatchLeftMm, 14, 4.2, words("Scale card"));
        yield return new(PatchLeftMm, 18.5, 2.3, words("Lay flat on the panel, beside the fault, code up."));
        if (message.Vehicle.Length > 0)
        {
            yield return new(PatchLeftMm, 24, 2.6, words("Vehicle: {0}", message.Vehicle));
        }

        if (message.Panel.Length > 0)
        {
            yield return new(PatchLeftMm, 28, 2.6, words("Panel: {0}", message.Panel));
        }

        for (int i = 0; i < Steps.Length; i++)
        {
            string percent = string.Create(CultureInfo.InvariantCulture, $"{100 * Steps[i]:0} %");
            yield return new(PatchLeftMm + 1.2 + (i * PatchWidthMm), PatchTopMm + PatchHeightMm + 3, 2.3, percent);
        }

        yield return new(PatchLeftMm, PatchTopMm + PatchHeightMm + 6.2, 1.9, words("Reflectance against the paper, nominal:"));
        yield return new(PatchLeftMm, PatchTopMm + PatchHeightMm + 8.7, 1.9, words("ink and printer change it."));
        yield return new(RuleLeftMm, RuleTopMm + 4, 2.6, words("Print at 100 %, check with a rule: this line is 100 mm. Marks every 10 mm."));
        yield return new(RuleLeftMm, RuleTopMm + 8.5, 2.3, words("Upright on the panel, the edge below shows in the paint: straight in sound paint."));
        yield return new(0, HeightMm + 6, 2.6, words("Cut along the thin line. If the line of 100 mm is not 100 mm long, print again without fitting to the page."));
    }
}
