using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using CoatScan.V1;

namespace CoatScan.Cli.Commands;

/// <summary>Two rectangles of a photo, as <c>X,Y,W,H:X,Y,W,H</c>. Ranges are the contract's.</summary>
internal static class ZonesOption
{
    private const string Name = "--compare-zones";

    /// <summary>The option; null when it is not given.</summary>
    public static Option<ZonePair?> Create() => new(Name)
    {
        Description = "Compares the colors of two rectangles of one photo, in pixels as the photo is seen, each at least 16 by 16: "
            + "left,top,width,height of both. With --same-panel they lie in the first photo. Both must lie in the same light.",
        HelpName = "X,Y,W,H:X,Y,W,H",
        CustomParser = Parse,
    };

    private static ZonePair? Parse(ArgumentResult result)
    {
        var zones = Array.ConvertAll(result.Tokens[0].Value.Split(':'), Zone);
        if (zones is [{ } first, { } second])
        {
            return new() { First = first, Second = second };
        }

        result.AddError($"{Name} takes two rectangles as 100,200,64,64:300,200,64,64, not '{result.Tokens[0].Value}'.");
        return null;
    }

    private static PhotoZone? Zone(string text)
    {
        var numbers = Array.ConvertAll(text.Split(','), Number);
        return numbers is [{ } x, { } y, { } width, { } height]
            ? new() { XPx = x, YPx = y, WidthPx = width, HeightPx = height }
            : null;
    }

    private static int? Number(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
