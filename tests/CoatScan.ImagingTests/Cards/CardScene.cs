using CoatScan.DemoPanels;
using CoatScan.Imaging;
using CoatScan.Imaging.Cards;
using CoatScan.Metrics.Color;

namespace CoatScan.ImagingTests.Cards;

/// <summary>A card on a panel as a pinhole camera sees it, with what is known about it.</summary>
internal sealed record CardScene
{
    public const int WidthPx = 1600;
    public const int HeightPx = 1200;

    // Samples along a side of a pixel.
    private const int Samples = 3;

    /// <summary>Angle between the panel and the sensor.</summary>
    public double TiltDegrees { get; init; }

    /// <summary>Direction of the tilt.</summary>
    public double TiltTowardDegrees { get; init; }

    /// <summary>Turn of the card on the panel.</summary>
    public double TurnDegrees { get; init; }

    /// <summary>Share of the frame that the card fills.</summary>
    public double FrameShare { get; init; } = 0.15;

    /// <summary>Focal length over the frame's width; 0.75 is a phone.</summary>
    public double FocalWidths { get; init; } = 0.75;

    /// <summary>Where the card's middle is, shares of the free room to the frame's edges, [-1, 1].</summary>
    public (double X, double Y) Place { get; init; }

    /// <summary>How dark the shade on one part of the card is; 1 for none.</summary>
    public double Shade { get; init; } = 1;

    public double BlurPx { get; init; } = 0.5;

    /// <summary>Standard deviation of 8-bit codes.</summary>
    public double NoiseCodes { get; init; } = 2;

    public int JpegQuality { get; init; } = 90;

    public double Exposure { get; init; } = 0.9;

    /// <summary>Color of the light, linear.</summary>
    public (double Red, double Green, double Blue) Light { get; init; } = (1, 1, 1);

    /// <summary>Color of another light that takes over where the card is further right than <see cref="OtherFromMm"/>.</summary>
    public (double Red, double Green, double Blue) OtherLight { get; init; } = (1, 1, 1);

    public double OtherFromMm { get; init; } = double.PositiveInfinity;

    /// <summary>A round place on the card, millimeters, that mirrors a lamp.</summary>
    public (double XMm, double YMm, double RadiusMm) Glare { get; init; }

    /// <summary>Seed of a demo panel under the card; null for plain gray.</summary>
    public ulong? PanelSeed { get; init; }

    public ScaleCard Card { get; init; } = ScaleCard.Of("", "");

    /// <summary>A scene drawn from a number.</summary>
    public static CardScene Draw(int number, double maxTiltDegrees)
    {
        var random = new Random(number);
        double Between(double low, double high) => low + ((high - low) * random.NextDouble());
        var scene = new CardScene
        {
            TiltDegrees = Between(0, maxTiltDegrees),
            TiltTowardDegrees = Between(0, 360),
            TurnDegrees = Between(0, 360),
            FrameShare = Math.Exp(Between(Math.Log(0.05), Math.Log(0.4))),
            FocalWidths = Between(0.7, 1.2),
            Place = (Between(-1, 1), Between(-1, 1)),
            Shade = random.Next(3) == 0 ? Between(0.25, 0.7) : 1,
            BlurPx = Between(0.3, 1.2),
            NoiseCodes = Between(0.5, 5),
            JpegQuality = random.Next(60, 96),
            Exposure = Between(0.35, 1.05),
        };
        return scene with
        {
            PanelSeed = random.Next(2) == 0 ? (ulong)number : null,
            Card = random.Next(2) == 0 ? ScaleCard.Of("", "") : ScaleCard.Of($"AB-{number} 123", "front left door"),
        };
    }

    /// <summary>Millimeters per pixel at the middle of the code, from the camera's geometry: root of area over area.</summary>
    public double MmPerPx
    {
        get
        {
            const double Step = 0.01;
            double middleX = ScaleCard.CodeLeftMm + (ScaleCard.CodeSideMm / 2);
            double middleY = ScaleCard.CodeTopMm + (ScaleCard.CodeSideMm / 2);
            var camera = Camera();
            var (left, top) = camera.ToPx(middleX - Step, middleY);
            var (right, bottom) = camera.ToPx(middleX + Step, middleY);
            var (left2, top2) = camera.ToPx(middleX, middleY - Step);
            var (right2, bottom2) = camera.ToPx(middleX, middleY + Step);
            double area = Math.Abs(((right - left) * (bottom2 - top2)) - ((right2 - left2) * (bottom - top)));
            return 2 * Step / Math.Sqrt(area);
        }
    }

    /// <summary>Angle between the line of sight to the middle of the code and the normal of the panel.</summary>
    public double SightTiltDegrees => Camera().SightTiltDegrees(
        ScaleCard.CodeLeftMm + (ScaleCard.CodeSideMm / 2), ScaleCard.CodeTopMm + (ScaleCard.CodeSideMm / 2));

    /// <summary>The photo as JPEG.</summary>
    public byte[] Jpeg() => PhotoEncoder.EncodeJpeg(Rgb(), WidthPx, HeightPx, JpegQuality);

    /// <summary>Millimeters per pixel at a place of the photo, from the camera's geometry: root of area over area.</summary>
    public double MmPerPxAt(double x, double y)
    {
        const double Step = 0.05;
        var camera = Camera();
        var (left, top) = camera.ToMm(x - Step, y);
        var (right, bottom) = camera.ToMm(x + Step, y);
        var (left2, top2) = camera.ToMm(x, y - Step);
        var (right2, bottom2) = camera.ToMm(x, y + Step);
        return Math.Sqrt(Math.Abs(((right - left) * (bottom2 - top2)) - ((right2 - left2) * (bottom - top)))) / (2 * Step);
    }

    /// <summary>Where a place on the card shows, pixels.</summary>
    public (double X, double Y) ToPx(double xMm, double yMm) => Camera().ToPx(xMm, yMm);

    private byte[] Rgb()
    {
        float[] light = Luminance();
        Blur(light, BlurPx);

        // The noise of two uniform numbers is close enough to a bell; equal for all channels.
        var camera = Camera();
        var random = new Random(17);
        double spread = NoiseCodes * Math.Sqrt(6);
        var rgb = new byte[3 * light.Length];
        for (int i = 0; i < light.Length; i++)
        {
            double noise = spread * (random.NextDouble() + random.NextDouble() - 1);
            bool isOther = double.IsFinite(OtherFromMm) && camera.ToMm(i % WidthPx, i / WidthPx).XMm > OtherFromMm;
            var (red, green, blue) = isOther ? OtherLight : Light;
            rgb[3 * i] = Code(light[i] * red, noise);
            rgb[(3 * i) + 1] = Code(light[i] * green, noise);
            rgb[(3 * i) + 2] = Code(light[i] * blue, noise);
        }

        return rgb;
    }

    private static byte Code(double light, double noise) =>
        (byte)Math.Clamp(SrgbTransfer.ToByte(Math.Clamp(light, 0, 1)) + noise, 0, 255);

    private float[] Luminance()
    {
        var light = Background();
        var raster = new CardRaster(Card);
        var camera = Camera();
        var (_, bounds) = camera.CardInFrame();
        for (int y = Math.Max(0, (int)bounds.Top); y <= Math.Min(HeightPx - 1, (int)bounds.Bottom); y++)
        {
            for (int x = Math.Max(0, (int)bounds.Left); x <= Math.Min(WidthPx - 1, (int)bounds.Right); x++)
            {
                float sum = 0;
                int covered = 0;
                for (int s = 0; s < Samples * Samples; s++)
                {
                    var (xMm, yMm) = camera.ToMm(x + (((s % Samples) + 0.5) / Samples), y + (((s / Samples) + 0.5) / Samples));
                    if (raster.At(xMm, yMm) is { } value)
                    {
                        // The shade's border runs aslant over the code, 3 mm soft.
                        double lit = Math.Clamp((xMm - 20 - (0.5 * yMm)) / 3, 0, 1);
                        bool mirrors = ((xMm - Glare.XMm) * (xMm - Glare.XMm)) + ((yMm - Glare.YMm) * (yMm - Glare.YMm))
                            < Glare.RadiusMm * Glare.RadiusMm;
                        sum += mirrors ? 3 : value * (float)(Exposure * (Shade + ((1 - Shade) * lit)));
                        covered++;
                    }
                }

                ref float pixel = ref light[(y * WidthPx) + x];
                pixel = (pixel * (1 - (covered / (float)(Samples * Samples)))) + (sum / (Samples * Samples));
            }
        }

        return light;
    }

    private float[] Background()
    {
        var light = new float[WidthPx * HeightPx];
        if (PanelSeed is not { } seed)
        {
            Array.Fill(light, 0.12f);
            return light;
        }

        // Rendered small and enlarged: what the paint shows matters little here, and this is fast.
        DemoPanel panel = DemoPanelRenderer.Render("sound", seed, new DemoPanelOptions { WidthPx = WidthPx / 4, HeightPx = HeightPx / 4 });
        for (int y = 0; y < HeightPx; y++)
        {
            for (int x = 0; x < WidthPx; x++)
            {
                int green = (3 * ((y / 4 * panel.WidthPx) + (x / 4))) + 1;
                light[(y * WidthPx) + x] = (float)SrgbTransfer.ToLinear(panel.Rgb[green]);
            }
        }

        return light;
    }

    private PinholeCamera Camera()
    {
        // The distance that gives the share at this tilt and place is found by halving: it falls with distance.
        double near = 50;
        double far = 5000;
        for (int i = 0; i < 60; i++)
        {
            double middle = (near + far) / 2;
            var (area, _) = At(middle, 0, 0).CardInFrame();
            (near, far) = area > FrameShare * WidthPx * HeightPx ? (middle, far) : (near, middle);
        }

        var (_, bounds) = At(far, 0, 0).CardInFrame();
        double roomX = Math.Max(0, ((WidthPx - (bounds.Right - bounds.Left)) / 2) - 10);
        double roomY = Math.Max(0, ((HeightPx - (bounds.Bottom - bounds.Top)) / 2) - 10);
        double f = FocalWidths * WidthPx;

        // Off the axis perspective stretches the card, so it goes only seven tenths of the way.
        return At(far, 0.7 * Place.X * roomX * far / f, 0.7 * Place.Y * roomY * far / f);
    }

    private PinholeCamera At(double distanceMm, double shiftXMm, double shiftYMm) =>
        new(FocalWidths * WidthPx, distanceMm, shiftXMm, shiftYMm, TiltDegrees, TiltTowardDegrees, TurnDegrees);

    private static void Blur(float[] light, double sigma)
    {
        int radius = (int)Math.Ceiling(3 * sigma);
        var weights = Enumerable.Range(-radius, (2 * radius) + 1).Select(i => (float)Math.Exp(-i * i / (2 * sigma * sigma))).ToArray();
        float total = weights.Sum();
        foreach (var (step, count, lines, lineStep) in new[] { (1, WidthPx, HeightPx, WidthPx), (WidthPx, HeightPx, WidthPx, 1) })
        {
            var line = new float[count];
            for (int at = 0; at < lines; at++)
            {
                int start = at * lineStep;
                for (int i = 0; i < count; i++)
                {
                    line[i] = light[start + (i * step)];
                }

                for (int i = 0; i < count; i++)
                {
                    float sum = 0;
                    for (int k = -radius; k <= radius; k++)
                    {
                        sum += weights[k + radius] * line[Math.Clamp(i + k, 0, count - 1)];
                    }

                    light[start + (i * step)] = sum / total;
                }
            }
        }
    }
}
