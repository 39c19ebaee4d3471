namespace CoatScan.Reports;

/// <summary>Files that travel inside the assembly.</summary>
internal static class OwnResource
{
    /// <summary>The bytes of one.</summary>
    public static byte[] Bytes(string name)
    {
        using Stream stream = typeof(OwnResource).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"{name} is not in the assembly.");
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }

    /// <summary>One as text.</summary>
    public static string Text(string name) => System.Text.Encoding.UTF8.GetString(Bytes(name));
}
