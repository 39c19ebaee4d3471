namespace CoatScan.Reports;

/// <summary>The fonts of the sheets inside their HTML: a sheet looks the same wherever it is read, and takes as many pages as its PDF.</summary>
internal static class FontFaces
{
    /// <summary>The rules of the style sheet, about 72 kB.</summary>
    public static string Css { get; } = Face(400, "OpenSans-Regular.woff2") + Face(600, "OpenSans-Semibold.woff2");

    private static string Face(int weight, string file) =>
        $"@font-face {{ font-family: \"Open Sans\"; font-weight: {weight}; src: url(data:font/woff2;base64,{Convert.ToBase64String(OwnResource.Bytes(file))}) format(\"woff2\"); }}\n";
}
