using System.Security.Cryptography;

namespace CoatScan.Service.Page;

/// <summary>Style, script and mark of the page: files inside the assembly, each under an address that changes with its content.</summary>
public sealed record PageAsset
{
    private PageAsset(string file, string mediaType)
    {
        using var stream = typeof(PageAsset).Assembly.GetManifestResourceStream(file)
            ?? throw new InvalidOperationException($"{file} is not in the assembly.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        Content = bytes.ToArray();
        MediaType = mediaType;
        Href = $"/assets/{Convert.ToHexStringLower(SHA256.HashData(Content.Span))[..12]}/{file}";
    }

    /// <summary>The style.</summary>
    public static PageAsset Style { get; } = new("page.css", "text/css; charset=utf-8");

    /// <summary>The script; the page does without it what matters.</summary>
    public static PageAsset Script { get; } = new("page.js", "text/javascript; charset=utf-8");

    /// <summary>The mark in the tab.</summary>
    public static PageAsset Mark { get; } = new("mark.svg", "image/svg+xml");

    /// <summary>All of them.</summary>
    public static IReadOnlyList<PageAsset> All { get; } = [Style, Script, Mark];

    /// <summary>The bytes.</summary>
    public ReadOnlyMemory<byte> Content { get; }

    /// <summary>Media type.</summary>
    public string MediaType { get; }

    /// <summary>Address.</summary>
    public string Href { get; }
}
