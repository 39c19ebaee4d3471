using CoatScan.Imaging.Cards;

namespace CoatScan.ImagingTests.Cards;

/// <summary>A card as paper and ink, linear reflectance, without its text.</summary>
internal sealed class CardRaster
{
    public const int PxPerMm = 10;

    // Office paper and laser toner, about.
    private const float Paper = 0.85f;
    private const float Ink = 0.04f;

    private readonly float[] _values = new float[Width * Height];

    public CardRaster(ScaleCard card)
    {
        Array.Fill(_values, Paper);
        foreach (CardRectangle one in card.Rectangles)
        {
            int right = At(one.XMm + one.WidthMm);
            int bottom = At(one.YMm + one.HeightMm);
            for (int y = At(one.YMm); y < bottom; y++)
            {
                for (int x = At(one.XMm); x < right; x++)
                {
                    _values[(y * Width) + x] = Ink + ((Paper - Ink) * (float)one.Reflectance);
                }
            }
        }
    }

    private static int Width => (int)(ScaleCard.WidthMm * PxPerMm);

    private static int Height => (int)(ScaleCard.HeightMm * PxPerMm);

    /// <summary>Reflectance at a place; null beside the card.</summary>
    public float? At(double xMm, double yMm)
    {
        int x = (int)Math.Floor(xMm * PxPerMm);
        int y = (int)Math.Floor(yMm * PxPerMm);
        return (uint)x < (uint)Width && (uint)y < (uint)Height ? _values[(y * Width) + x] : null;
    }

    private static int At(double mm) => (int)Math.Round(mm * PxPerMm);
}
