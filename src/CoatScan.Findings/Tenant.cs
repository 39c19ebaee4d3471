namespace CoatScan.Findings;

/// <summary>Whose data it is: everything stored belongs to one tenant, and none sees anything of another.</summary>
public readonly record struct Tenant
{
    /// <summary>Most characters of an id.</summary>
    public const int MaximumIdLength = 63;

    private readonly string? _id;

    /// <summary>A tenant.</summary>
    /// <param name="id">1 to 63 ASCII letters, digits, '-' or '_'.</param>
    /// <exception cref="ArgumentException">The id is none.</exception>
    public Tenant(string id)
    {
        ArgumentException.ThrowIfNullOrEmpty(id);
        if (!IsId(id))
        {
            throw new ArgumentException("A tenant id is 1 to 63 letters, digits, '-' or '_'.", nameof(id));
        }

        _id = id;
    }

    /// <summary>Whether a text is the id of a tenant: 1 to 63 ASCII letters, digits, '-' or '_'.</summary>
    public static bool IsId(string? id) =>
        id is { Length: > 0 and <= MaximumIdLength } && id.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_');

    /// <summary>The only tenant of a service that knows no credentials.</summary>
    public static Tenant Local { get; } = new("local");

    /// <summary>The id.</summary>
    public string Id => _id ?? "local";

    /// <inheritdoc />
    public override string ToString() => Id;
}
