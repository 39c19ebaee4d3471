using CoatScan.Imaging.Cards;

namespace CoatScan.Imaging.Normalizing;

/// <summary>The color of the light: from a card's neutral places where they agree, else from highlights.</summary>
internal static class LightColor
{
    /// <summary>The gains for red and blue that make the light neutral; both 1 without evidence.</summary>
    public static WhiteBalance Find(ReducedPhoto photo, CardReading? card)
    {
        if (card is null)
        {
            return HighlightWhiteBalance.Estimate(photo);
        }

        if (card.Gray is { RedGain: { } red, BlueGain: { } blue })
        {
            return new WhiteBalance(red, blue, card.Gray.Says) { Card = card.Gray };
        }

        WhiteBalance highlights = HighlightWhiteBalance.Estimate(photo);
        return highlights with { Reason = $"{card.Gray.Says}; {highlights.Reason}" };
    }

    /// <summary>Scales red and blue in place and clips to [0, 1].</summary>
    public static void TakeOut(ReducedPhoto photo, WhiteBalance balance)
    {
        if (balance.IsCorrected)
        {
            Scale(photo.Red.Values, (float)balance.RedGain);
            Scale(photo.Blue.Values, (float)balance.BlueGain);
        }
    }

    private static void Scale(float[] values, float gain)
    {
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = Math.Min(values[i] * gain, 1);
        }
    }
}
