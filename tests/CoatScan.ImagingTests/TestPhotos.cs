using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests;

/// <summary>Invented pictures, and the way to ask the guard about them.</summary>
internal static class TestPhotos
{
    // A generated color cloud of 56 x 40 pixels, 4:2:0, written by libjpeg as progressive JPEG: ten scans with refinement.
    private const string ProgressiveBase64 =
        "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAYEBQYFBAYGBQYHBwYIChAKCgkJChQODwwQFxQYGBcUFhYaHSUfGhsjHBYWICwgIyYnKSopGR8tMC" +
        "0oMCUoKSj/2wBDAQcHBwoIChMKChMoGhYaKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCj/wgARCAAo" +
        "ADgDASIAAhEBAxEB/8QAGgAAAgMBAQAAAAAAAAAAAAAAAAQBAgMFBv/EABoBAAIDAQEAAAAAAAAAAAAAAAEDAgQGAAX/2gAMAwEAAhADEAAAAf" +
        "P1ZQOo3qpKm3d420FvGBYEyutps+zpm3Vfz6sKntChYSzIXPISsFpjCgSMAMH/xAAcEAADAAMBAQEAAAAAAAAAAAAAAQIREiEDMUH/2gAIAQEA" +
        "AQUCpYJ9R0zfC3yRSpVgWGekiYxEfXfFXFwrCeMlGw7K+LaSfSWS05ue/tdIexXz9V4NlSfDPP/EAB0RAAIDAAIDAAAAAAAAAAAAAAABAgMRBB" +
        "ITFDH/2gAIAQMBAT8BfLPYebpDlOTwd8yyfVlV66/TzY9RLmzTLbJbhCTQ5yQ5s//EACARAAMAAgIBBQAAAAAAAAAAAAABAgMEERQTITEyQVH/" +
        "2gAIAQIBAT8Bel+D12/o8BOlNI6qRmxNP2J1VfqdWUWuMnAoV/IWOUyIXB//xAAbEAACAwADAAAAAAAAAAAAAAARIQAQIAExYf/aAAgBAQAGPw" +
        "I8Qa7nkFqhHR2hl0sf/8QAHhABAAIDAAMBAQAAAAAAAAAAAQARITFBUWGBkaH/2gAIAQEAAT8h85BlG1X2bBN8qNkrMQYg0jLjrkbrHYdhLLeY" +
        "kzVU+mVe2JGX8lViYN5WtfkEIDKlDMPEC2ikA8RnD54HokVM/sLrOqiypEL4z6nqqiWLnsLYPMW6T//aAAwDAQACAAMAAAAQhmu8WkvD/d9B/8" +
        "QAGREBAQEBAQEAAAAAAAAAAAAAAQAhETGB/9oACAEDAQE/ECdXYRDr7bpsF9u6Pl5EV0NuAZHZ9swZzgy3b//EABsRAQADAQADAAAAAAAAAAAA" +
        "AAEAESExUWGB/9oACAECAQE/EFtTydzR6igoyAHkC4zH1lRX54gSkqGghdaqVgIjU//EACEQAQEAAwACAQUBAAAAAAAAAAERACExQWGxUXGBka" +
        "Hw/9oACAEBAAE/EIVWIDr/AHjAahoBcMqvSrG46Aha6mXkZuzdwDFZ18Z91vQPnHETtB7hZBCiC5ZqaIw0RoLA94kUGyBrAii9ouEwarnnIwWi" +
        "icwShHWtPnJYSnvmAiRNR+uTpVo+34yxQmmbw9QTdN/OJaRJLje4a9fvmUyqlXXcqlBBPPDwZuOjWTQYAqA8XOnFup/mWUsMX07gAsvDNV0dF3" +
        "E7X1cuCWlfGIwTQXmONE3u0z//2Q==";

    // A generated color cloud of 16 x 16 pixels, written by libjpeg as YCCK.
    private const string YcckBase64 =
        "/9j/7gAOQWRvYmUAZAAAAAAC/9sAQwANCQoLCggNCwoLDg4NDxMgFRMSEhMnHB4XIC4pMTAuKS0sMzpKPjM2RjcsLUBXQUZMTlJTUjI+WmFaUG" +
        "BKUVJP/9sAQwEODg4TERMmFRUmTzUtNU9PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09PT09P/8AAFAgAEAAQ" +
        "BAEiAAIRAQMRAQQiAP/EABcAAQEBAQAAAAAAAAAAAAAAAAQGAAL/xAAmEAACAQMCBgIDAAAAAAAAAAABAgMABBEFIRITIjFRcSRBQtHh/8QAFA" +
        "EBAAAAAAAAAAAAAAAAAAAABf/EABsRAQACAgMAAAAAAAAAAAAAAAEAAgMhBQYR/9oADgQBAAIRAxEEAAA/AGWeoGZWV0ZJBkDiGAfFHWWbmtgA" +
        "NGc7DZvOKoE0uJHIC8Sv+P1WWytzPgwkEtliNs/zag7djyWE8IEcGlnemUtvqsSvzOkONjnsfFDvNUuEdUhPQ2SDnIHo09tPiPxYwOFtij9/Wa" +
        "6stHh5rxsrNGezD9V//9k=";

    public static byte[] ProgressiveJpeg => Convert.FromBase64String(ProgressiveBase64);

    public static byte[] YcckJpeg => Convert.FromBase64String(YcckBase64);

    /// <summary>A smooth pattern with fine detail in all channels.</summary>
    public static byte[] PatternRgb(int width, int height)
    {
        var rgb = new byte[3 * width * height];
        for (int y = 0, i = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                rgb[i++] = (byte)(128 + (90 * Math.Sin((x * 0.35) + (y * 0.1))));
                rgb[i++] = (byte)(120 + (80 * Math.Sin((y * 0.4) - (x * 0.05))));
                rgb[i++] = (byte)(100 + (60 * Math.Cos((x + y) * 0.2)));
            }
        }

        return rgb;
    }

    /// <summary>One color.</summary>
    public static byte[] FlatRgb(int width, int height, byte red, byte green, byte blue)
    {
        var rgb = new byte[3 * width * height];
        for (int i = 0; i < rgb.Length; i += 3)
        {
            (rgb[i], rgb[i + 1], rgb[i + 2]) = (red, green, blue);
        }

        return rgb;
    }

    public static byte[] PatternJpeg(int width = 48, int height = 40, int quality = 85) =>
        PhotoEncoder.EncodeJpeg(PatternRgb(width, height), width, height, quality);

    public static byte[] PatternPng(int width = 48, int height = 40) =>
        PhotoEncoder.EncodePng(PatternRgb(width, height), width, height);

    public static DecodedPhoto Decode(byte[] bytes, ImagingOptions? options = null) =>
        new GuardedPhotoDecoder(options ?? new ImagingOptions()).Decode(bytes, TestContext.Current.CancellationToken);

    public static NormalizedPhoto Normalize(byte[] bytes, double? mmPerPx = null, ImagingOptions? options = null)
    {
        options ??= new ImagingOptions();
        return new PhotoNormalizer(new GuardedPhotoDecoder(options), options)
            .Normalize(bytes, mmPerPx, TestContext.Current.CancellationToken);
    }

    /// <summary>The refusal of a photo; fails if it is taken.</summary>
    public static CoatScanException Refusal(byte[] bytes, ImagingOptions? options = null) =>
        Assert.Throws<CoatScanException>(() => Decode(bytes, options).Dispose());
}
