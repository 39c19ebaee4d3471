using System.Globalization;
using System.Text;
using CoatScan.Findings;

namespace CoatScan.Imaging.Cards;

/// <summary>What the code on a scale card says: how large it is printed, and what the card belongs to.</summary>
/// <remarks>
/// Form: <c>CSC1;46.0;VEHICLE;PANEL</c>, printable ASCII. The number is the side of the code, millimeters. In the two references a
/// percent sign, a semicolon and every byte of UTF-8 that is not printable ASCII are written as <c>%XX</c> (as RFC 3986, 2.1).
/// </remarks>
public sealed record CardMessage
{
    private const string Mark = "CSC1";

    // What version 5 of the symbol holds at error correction level Q (ISO/IEC 18004, table 7): a longer text would make modules
    // so small that a card on a twentieth of a photo could not be read.
    private const int MaxLength = 60;

    private CardMessage(double codeSideMm, string vehicle, string panel)
    {
        CodeSideMm = codeSideMm;
        Vehicle = vehicle;
        Panel = panel;
    }

    /// <summary>Side of the printed code without its quiet zone, millimeters.</summary>
    public double CodeSideMm { get; }

    /// <summary>The user's reference of the vehicle; empty if the card has none.</summary>
    public string Vehicle { get; }

    /// <summary>The user's name of the panel; empty if the card has none.</summary>
    public string Panel { get; }

    /// <summary>A message for a card.</summary>
    /// <exception cref="CoatScanException">The references are too long together, or have control characters.</exception>
    public static CardMessage Of(double codeSideMm, string vehicle, string panel)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(panel);
        if (HasControl(vehicle + panel))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                "The references on a card must not have control characters.",
                "vehicle",
                new Dictionary<string, string>());
        }

        var message = new CardMessage(codeSideMm, vehicle, panel);
        int length = message.ToText().Length;
        if (length > MaxLength)
        {
            throw new CoatScanException(
                ErrorReason.ValueOutOfRange,
                $"The references of vehicle and panel are {length - MaxLength} characters too long together for a card.",
                "vehicle",
                new Dictionary<string, string> { ["tooLongBy"] = (length - MaxLength).ToString(CultureInfo.InvariantCulture) });
        }

        return message;
    }

    /// <summary>The text that the code carries.</summary>
    public string ToText() =>
        string.Create(CultureInfo.InvariantCulture, $"{Mark};{CodeSideMm:0.0};{Escape(Vehicle)};{Escape(Panel)}");

    /// <summary>Reads the text of a code; null if it is not that of a scale card.</summary>
    public static CardMessage? Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Split(';') is [Mark, var side, var vehicle, var panel]
            && text.Length <= MaxLength
            && double.TryParse(side, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double sideMm)
            && sideMm is >= 10 and <= 300
            && new CardMessage(sideMm, Uri.UnescapeDataString(vehicle), Uri.UnescapeDataString(panel)) is var message
            && !HasControl(message.Vehicle + message.Panel)
            ? message
            : null;
    }

    private static bool HasControl(string text) => text.Any(char.IsControl);

    private static string Escape(string reference)
    {
        var text = new StringBuilder();
        foreach (byte value in Encoding.UTF8.GetBytes(reference))
        {
            if (value is >= 0x20 and < 0x7F and not (byte)'%' and not (byte)';')
            {
                text.Append((char)value);
            }
            else
            {
                text.Append(CultureInfo.InvariantCulture, $"%{value:X2}");
            }
        }

        return text.ToString();
    }
}
