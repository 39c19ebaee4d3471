using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Imaging;

/// <summary>Builds the refusals of the decode guard, so that every one names the field and carries its variables.</summary>
internal static class Refusal
{
    /// <summary>The field of the request that holds the photo.</summary>
    public const string Field = "content";

    /// <summary>What the service takes, as media types.</summary>
    public const string AllowedMediaTypes = "image/jpeg, image/png";

    public static CoatScanException Unreadable(string why, Exception? inner = null) =>
        Because(ErrorReason.PhotoUnreadable, $"The photo cannot be read: {why}.", ("detail", why), inner);

    public static CoatScanException Truncated(string why) =>
        Because(ErrorReason.PhotoTruncated, $"The photo ends too early: {why}. Send the whole file.", ("detail", why));

    public static CoatScanException ColorModel(string model) =>
        Because(
            ErrorReason.PhotoColorModelNotAllowed,
            $"The photo's color model is {model}; allowed are gray, YCbCr and opaque RGB. Export it as an RGB JPEG.",
            ("color_model", model));

    public static CoatScanException Transparent() => ColorModel("RGB with transparent pixels");

    public static CoatScanException ColorProfile(string why) =>
        Because(
            ErrorReason.PhotoColorProfileNotAllowed,
            $"The photo's color profile cannot be converted faithfully: {why}. Export it in sRGB.",
            ("detail", why));

    public static CoatScanException MultiFrame(string why) =>
        Because(ErrorReason.PhotoMultiFrame, $"The file holds more than one frame: {why}. Send one still photo.", ("detail", why));

    public static CoatScanException Format(string mediaType, string name) =>
        new(
            ErrorReason.PhotoFormatNotAllowed,
            $"The file is {name} ({mediaType}); allowed are {AllowedMediaTypes}.",
            Field,
            new Dictionary<string, string> { ["media_type"] = mediaType, ["allowed"] = AllowedMediaTypes, ["format"] = name });

    public static CoatScanException TooLarge(string what, string unit, double value, double limit)
    {
        string valueText = value.ToString("0.######", CultureInfo.InvariantCulture);
        string limitText = limit.ToString("0.######", CultureInfo.InvariantCulture);
        return new CoatScanException(
            ErrorReason.PhotoTooLarge,
            $"The photo's {what} of {valueText}{unit} is above the limit of {limitText}{unit}.",
            Field,
            new Dictionary<string, string> { ["what"] = what, ["value"] = valueText, ["limit"] = limitText });
    }

    private static CoatScanException Because(
        ErrorReason reason, string message, (string Name, string Value) variable, Exception? inner = null) =>
        new(reason, message, Field, new Dictionary<string, string> { [variable.Name] = variable.Value }, inner);
}
