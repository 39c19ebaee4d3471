using ZXing;
using ZXing.QrCode.Internal;

namespace CoatScan.Imaging.Cards;

/// <summary>The QR code (ISO/IEC 18004) of a card as a square of dark and light modules.</summary>
/// <remarks>
/// Level Q, so that a quarter of the code may be hidden by glare. Version 2 at least: version 1 has no alignment pattern, and without
/// one a tilted code is read less well. The standard fixes how the mask is chosen, so equal texts give equal codes.
/// </remarks>
internal sealed class CardCode
{
    private readonly ByteMatrix _modules;

    private CardCode(ByteMatrix modules) => _modules = modules;

    /// <summary>Modules along a side, at least 25.</summary>
    public int Side => _modules.Width;

    /// <summary>Whether the module is dark; outside the code it is light, as the quiet zone.</summary>
    public bool IsDark(int x, int y) => (uint)x < (uint)Side && (uint)y < (uint)Side && _modules[x, y] == 1;

    /// <summary>The code of a message.</summary>
    public static CardCode Of(CardMessage message)
    {
        string text = message.ToText();
        QRCode code = Encoder.encode(text, ErrorCorrectionLevel.Q);
        if (code.Version.VersionNumber == 1)
        {
            code = Encoder.encode(
                text, ErrorCorrectionLevel.Q, new Dictionary<EncodeHintType, object> { [EncodeHintType.QR_VERSION] = 2 });
        }

        return new CardCode(code.Matrix);
    }
}
