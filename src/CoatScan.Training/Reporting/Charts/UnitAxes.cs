using System.Globalization;

namespace CoatScan.Training.Reporting.Charts;

/// <summary>A square plot of two shares, both from 0 to 1.</summary>
internal sealed class UnitAxes
{
    public const double Width = 440;

    public const double Height = 460;

    private const double Left = 62;
    private const double Top = 44;
    private const double Side = 350;

    public UnitAxes(string title, string alongX, string alongY)
    {
        Page = new SvgPage(Width, Height, title);
        for (var tick = 0; tick <= 10; tick += 2)
        {
            var share = tick / 10.0;
            Page.Line(X(share), Y(0), X(share), Y(1), 0.6, "#bbb");
            Page.Line(X(0), Y(share), X(1), Y(share), 0.6, "#bbb");
            Page.Text(X(share), Y(0) + 17, share.ToString("0.0", CultureInfo.InvariantCulture), 11, "middle");
            Page.Text(X(0) - 8, Y(share) + 4, share.ToString("0.0", CultureInfo.InvariantCulture), 11, "end");
        }

        Page.Line(X(0), Y(0), X(1), Y(0), 1.4);
        Page.Line(X(0), Y(0), X(0), Y(1), 1.4);
        Page.Text(X(0.5), Y(0) + 40, alongX, 12, "middle");
        Page.Text(18, Y(0.5), alongY, 12, "middle", -90);
    }

    public SvgPage Page { get; }

    public static double X(double share) => Left + (share * Side);

    public static double Y(double share) => Top + ((1 - share) * Side);
}
